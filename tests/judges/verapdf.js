// veraPDF without its command line, run by the Rhino shell that lies in the same jar.
// Reads lines `FLAVOUR FILE` until there are no more; answers each with one line of JSON.
var vera = Packages.org.verapdf;
vera.gf.foundry.VeraGreenfieldFoundryProvider.initialise();

function rule(id) {
  return id.getClause() + "-" + id.getTestNumber();
}

function judge(flavourId, file) {
  var flavour = vera.pdfa.flavours.PDFAFlavour.byFlavourId(flavourId);
  var parser = vera.pdfa.Foundries.defaultInstance().createParser(new java.io.File(file), flavour);
  var validator = vera.pdfa.validation.validators.ValidatorFactory.createValidator(flavour, false);
  try {
    var result = validator.validate(parser);
    var broken = {};
    for (var all = result.getFailedChecks().entrySet().iterator(); all.hasNext();) {
      var one = all.next();
      broken[rule(one.getKey())] = one.getValue() + " times";
    }
    for (var told = result.getTestAssertions().iterator(); told.hasNext();) {
      var assertion = told.next();
      var name = rule(assertion.getRuleId());
      if (name in broken) broken[name] = assertion.getMessage() + " @ " + assertion.getLocation().getContext();
    }
    return {
      flavour: String(flavour.getId()),
      ended: String(result.getJobEndStatus().name()),
      compliant: result.isCompliant() == true,
      checks: Number(result.getTotalAssertions()),
      broken: broken,
    };
  } finally {
    validator.close();
    parser.close();
  }
}

var lines = new java.io.BufferedReader(new java.io.InputStreamReader(java.lang.System["in"], "UTF-8"));
for (var line = lines.readLine(); line !== null; line = lines.readLine()) {
  var blank = line.indexOf(" ");
  var answer;
  try {
    answer = judge(String(line.substring(0, blank)), line.substring(blank + 1));
  } catch (problem) {
    answer = { problem: String(problem) };
  }
  print(JSON.stringify(answer));
}
