package org.beefyield.data.command;

import java.nio.charset.Charset;
import java.util.List;
import java.util.regex.Pattern;
import org.beefyield.data.CsvForm;
import org.jspecify.annotations.Nullable;

/** Options that say how the CSV files of a run are written. */
final class FormOptions {
    static final String USAGE = """
          --separator CHAR      what separates cells, such as ; or tab
          --decimal-comma       numbers have decimal commas
          --charset NAME        character set, such as windows-1252
          --dates FORM          how dates are written: d.m.y or d/m/y; else y-m-d
          --columns NAMES       names of columns: theirs=ours, with commas between, such as Nr=carcass,Klasse=category
          --yes-no WORDS        the words for yes and no, such as ja,nein
          --unit WORD           what may stand behind numbers, such as kg in 342,50 kg
          --formula-cells       cells may be written as ="0123"
          --blank-rows          rows without anything in their cells only part others
        """;

    static final List<String> NAMED = List.of("--separator", "--charset", "--dates", "--columns", "--yes-no", "--unit");
    static final List<String> FLAGS = List.of("--decimal-comma", "--formula-cells", "--blank-rows");

    private static final Pattern COMMA = Pattern.compile(",");

    private FormOptions() {}

    static CsvForm form(Options options) {
        CsvForm.Builder form = CsvForm.builder();
        try {
            separator(form, options.value("--separator"));
            String charset = options.value("--charset");
            if (charset != null) {
                form.charset(charset(charset));
            }
            if (options.has("--decimal-comma")) {
                form.decimalComma();
            }
            dates(form, options.valueOr("--dates", "y-m-d"));
            columns(form, options.value("--columns"));
            yesNo(form, options.value("--yes-no"));
            String unit = options.value("--unit");
            if (unit != null) {
                form.unit(unit);
            }
            if (options.has("--formula-cells")) {
                form.formulaCells();
            }
            if (options.has("--blank-rows")) {
                form.blankRows();
            }
            return form.build();
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(String.valueOf(e.getMessage()));
        }
    }

    private static void separator(CsvForm.Builder form, @Nullable String separator) {
        if (separator == null) {
            return;
        }
        String one = separator.equals("tab") ? "\t" : separator;
        if (one.length() != 1) {
            throw new Options.UsageException("--separator \"" + separator + "\" is not one character or tab");
        }
        form.separator(one.charAt(0));
    }

    private static Charset charset(String name) {
        try {
            return Charset.forName(name);
        } catch (IllegalArgumentException e) {
            throw new Options.UsageException(
                    "--charset \"" + name + "\" is no character set here; such as UTF-8 or windows-1252");
        }
    }

    private static void dates(CsvForm.Builder form, String dates) {
        switch (dates) {
            case "y-m-d" -> form.dates(CsvForm.DateForm.ISO);
            case "d/m/y" -> form.dates(CsvForm.DateForm.SLASHES);
            case "d.m.y" -> form.dates(CsvForm.DateForm.POINTS);
            default -> throw new Options.UsageException("--dates \"" + dates + "\" is none of y-m-d, d/m/y, d.m.y");
        }
    }

    private static void columns(CsvForm.Builder form, @Nullable String names) {
        for (String name :
                names == null ? List.<String>of() : COMMA.splitAsStream(names).toList()) {
            int equals = name.lastIndexOf('=');
            if (equals < 1 || equals == name.length() - 1) {
                throw new Options.UsageException(
                        "--columns \"" + name + "\" is not their name and ours, such as Nr=carcass");
            }
            form.column(name.substring(0, equals), name.substring(equals + 1));
        }
    }

    private static void yesNo(CsvForm.Builder form, @Nullable String words) {
        if (words == null) {
            return;
        }
        List<String> both = COMMA.splitAsStream(words).toList();
        if (both.size() != 2) {
            throw new Options.UsageException("--yes-no \"" + words + "\" is not two words such as ja,nein");
        }
        form.yesNo(both.get(0), both.get(1));
    }
}
