package org.beefyield.data.file;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.beefyield.data.CsvForm;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.Problem;

/**
 * The columns of a file, under its own names and under ours. A column of ours is the one whose name is declared for it, else
 * the one that has our name.
 */
public final class CsvHeader {
    private final List<String> names;
    private final Map<String, Integer> positions = new HashMap<>();
    private final Map<String, String> declared;

    /**
     * A header.
     *
     * @param file name of the file
     * @param line its line
     * @param names names as they stand there, no two equal
     * @param form what is declared of the file
     * @throws InvalidDataException if two columns are declared as the same
     */
    CsvHeader(String file, long line, List<String> names, CsvForm form) {
        this.names = names;
        declared = form.columns();
        List<Problem> found = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            String ours = declared.get(names.get(i));
            Integer other = ours == null ? null : positions.putIfAbsent(ours, i);
            if (other != null) {
                found.add(new Problem(
                        file,
                        line,
                        names.get(i),
                        names.get(i),
                        "columns " + Excerpt.quote(names.get(other)) + " and " + Excerpt.quote(names.get(i))
                                + " are both declared as " + ours + "; a file has one of them"));
            }
        }
        if (!found.isEmpty()) {
            throw new InvalidDataException(found);
        }
        for (int i = 0; i < names.size(); i++) {
            if (!declared.containsKey(names.get(i))) {
                positions.putIfAbsent(names.get(i), i);
            }
        }
    }

    /**
     * Names as they stand in the file.
     *
     * @return names in its order
     */
    public List<String> names() {
        return names;
    }

    /**
     * Where a column of ours is.
     *
     * @param ours our name
     * @return position from 0, below 0 if the file has none
     */
    public int position(String ours) {
        return positions.getOrDefault(ours, -1);
    }

    /**
     * What the file calls a column of ours.
     *
     * @param ours our name
     * @return its name there; that which is declared, or ours, if the file has no such column
     */
    public String name(String ours) {
        int position = position(ours);
        return position >= 0 ? names.get(position) : declaredName(ours, declared);
    }

    private static String declaredName(String ours, Map<String, String> declared) {
        for (Map.Entry<String, String> column : declared.entrySet()) {
            if (column.getValue().equals(ours)) {
                return column.getKey();
            }
        }
        return ours;
    }

    /**
     * What we call a column of the file.
     *
     * @param position its position from 0
     * @return our name; the file's own where none is declared, and empty where that name is another column's
     */
    public String ours(int position) {
        String name = names.get(position);
        String ours = declared.getOrDefault(name, name);
        return position(ours) == position ? ours : "";
    }

    /**
     * Why there is no such column, in words.
     *
     * @param position its position from 0
     * @return such as {@code there is no column "pen"}
     */
    public String unknown(int position) {
        String name = names.get(position);
        String ours = declared.get(name);
        return ours == null
                ? "there is no column \"" + name + "\""
                : "the column \"" + name + "\" is declared as \"" + ours + "\", which is none";
    }
}
