package org.beefyield.estimate;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Carcasses by what they have in common: those of rows that were written down are sorted out when somebody asks, so that who
 * wants totals alone doesn't pay for it. Asking changes nothing that can be seen, from whatever thread.
 */
final class Groups {
    /** Fewer rows than these wait in any case: 20 MB at most. */
    private static final int MOST_WAITING = 1 << 20;

    private final Model model;
    private final Map<Group.Key, Group> sorted = new HashMap<>();
    private final List<WrittenRows> written = new ArrayList<>();
    /** Rows written down, and from how many on they are looked at. */
    private int waiting;

    private int most = MOST_WAITING;

    Groups(Model model) {
        this.model = model;
    }

    /** The same apart, sorted out: what comes of sums mustn't depend on whether somebody asked before. */
    Groups copy() {
        Groups copy = new Groups(model);
        sorted().forEach((key, group) -> copy.sorted.put(key, group.copy()));
        return copy;
    }

    synchronized boolean isEmpty() {
        return sorted.isEmpty() && written.isEmpty();
    }

    /** A group to which carcasses can be added; rows that wait need not be in it yet. */
    Group at(Group.Key key) {
        // shares, times the weight
        return sorted.computeIfAbsent(
                key(key),
                known -> new Group(
                        model.categories().size() * model.nodes().size(),
                        model.anyGrid().coefficients() + 1));
    }

    /** Lots are one where the table doesn't have them err together, and so are runs. */
    private Group.Key key(Group.Key known) {
        return model.keepsLots() && model.keepsRuns()
                ? known
                : new Group.Key(
                        model.keepsLots() ? known.lot() : LotKey.NOT_KNOWN,
                        model.keepsRuns() ? known.run() : RunKey.NOT_KNOWN);
    }

    /** Adds rows, which nobody changes any more. */
    void add(WrittenRows rows) {
        written.add(rows);
        waiting += rows.size();
        if (waiting >= most) {
            SortedRows sortedRows = new SortedRows(written);
            // as long as groups would keep them one by one as well, it saves nothing to sort them out
            if (waiting / sortedRows.groups() < Group.MOST / 2 && most < 1 << 28) {
                most *= 2;
            } else {
                add(sortedRows);
            }
        }
    }

    /** Adds carcasses of others, all sorted out, as in a copy. */
    void add(Groups other) {
        sorted();
        other.sorted().forEach((key, group) -> at(key).add(group));
    }

    /** All groups, not to be changed. */
    synchronized Map<Group.Key, Group> sorted() {
        if (waiting > 0) {
            add(new SortedRows(written));
        }
        return sorted;
    }

    private void add(SortedRows rows) {
        rows.addTo(this::at);
        written.clear();
        waiting = 0;
        most = MOST_WAITING;
    }
}
