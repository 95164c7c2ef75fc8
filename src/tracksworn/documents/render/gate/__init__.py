"""Refuses to hand over a document whose cautions are not all in it, to be read: judged on the finished bytes."""
