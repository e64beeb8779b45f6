// Judges PDFs by the veraPDF validation library, which is on the class path (see verapdf.sh).
//
// usage: VeraCheck FLAVOUR[,FLAVOUR...] FILE...      flavours by veraPDF's own ids, as 3a or ua1
// out:   one line `PASS|FAIL|ERROR flavour file` for each pair, under a FAIL one line for each
//        broken clause with how often and where first, under an ERROR its cause
// exit:  0 all comply, 1 some do not, 2 some could not be judged (no PDF, no profile, bad call)

import java.io.File;
import java.util.Comparator;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.VeraPDFFoundry;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.RuleId;

public class VeraCheck {
    static final int COMPLIES = 0, BROKEN = 1, NOT_JUDGED = 2;

    public static void main(String[] args) {
        if (args.length < 2) {
            System.err.println("usage: VeraCheck FLAVOUR[,FLAVOUR...] FILE...");
            System.exit(NOT_JUDGED);
        }
        Logger.getLogger("").setLevel(Level.OFF);
        VeraGreenfieldFoundryProvider.initialise();
        int worst = COMPLIES;
        for (int i = 1; i < args.length; i++) {
            for (String flavour : args[0].split(",")) {
                worst = Math.max(worst, judge(args[i], flavour));
            }
        }
        System.exit(worst);
    }

    static int judge(String file, String id) {
        try {
            PDFAFlavour flavour = PDFAFlavour.byFlavourId(id);
            if (flavour == PDFAFlavour.NO_FLAVOUR) {
                throw new IllegalArgumentException("veraPDF knows no flavour `" + id + "`");
            }
            ValidationResult result = validate(file, flavour);
            System.out.println((result.isCompliant() ? "PASS " : "FAIL ") + id + " " + file);
            result.getFailedChecks().entrySet().stream()
                .sorted(Comparator.comparing(
                    (Map.Entry<RuleId, Integer> e) -> e.getKey().getClause())
                    .thenComparing(e -> e.getKey().getTestNumber()))
                .forEach(e -> explain(result, e.getKey(), e.getValue()));
            return result.isCompliant() ? COMPLIES : BROKEN;
        } catch (Exception | LinkageError cause) {
            System.out.println("ERROR " + id + " " + file);
            System.out.println("  " + oneLine(cause.toString()));
            return NOT_JUDGED;
        }
    }

    static ValidationResult validate(String file, PDFAFlavour flavour) throws Exception {
        VeraPDFFoundry foundry = Foundries.defaultInstance();
        try (PDFAParser parser = foundry.createParser(new File(file), flavour)) {
            // -1: no limit to the failures shown; false: only failed assertions are kept;
            // true: their messages are; false: no progress on the console.
            PDFAValidator validator = foundry.createValidator(flavour, -1, false, true, false);
            return validator.validate(parser);
        }
    }

    static void explain(ValidationResult result, RuleId rule, int times) {
        String first = result.getTestAssertions().stream()
            .filter(assertion -> assertion.getRuleId().equals(rule))
            .findFirst().map(VeraCheck::saying).orElse("");
        System.out.println("  clause " + rule.getClause() + " test " + rule.getTestNumber()
            + ", " + times + " times: " + first);
    }

    static String saying(TestAssertion assertion) {
        String text = assertion.getErrorMessage();
        return oneLine(text == null ? assertion.getMessage() : text)
            + " @ " + assertion.getLocation().getContext();
    }

    static String oneLine(String text) {
        return text.replaceAll("\\s+", " ");
    }
}
