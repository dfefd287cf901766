package org.beefyield.benchmarks.control;

import java.util.Set;
import org.beefyield.reconcile.Reconciliation;

/** What goes wrong in a hall from run {@value FaultSeason#FROM} on, counted from 0. */
enum Fault {
    /** Nothing. */
    NONE("no fault", 0, ""),
    /** Topside joints are trimmed too hard for a week; what is cut off goes into the lean trim. */
    TOPSIDE_WEEK("topside 2 % low for a week", 5, "Topside joint"),
    /** The same until the season ends. */
    TOPSIDE_SEASON("topside 2 % low for the rest of the season", 30, "Topside joint"),
    /** The scale of the boxes shows too little for three runs, so that meat seems to be lost. */
    SCALE_DAYS("box scale 1 % low for 3 runs", 3, Reconciliation.LOSSES),
    /** The same for a week. */
    SCALE_WEEK("box scale 1 % low for a week", 5, Reconciliation.LOSSES),
    /** Boxes of striploin have the label of fillet on one day: two for 20 carcasses. */
    LABELS("striploin labelled as fillet on one day", 1, "Fillet steak"),
    /** Forequarters that stand in no intake are boned with the last lot of one day: those of four carcasses for 20. */
    FOREQUARTERS("forequarters of no intake on one day", 1, "");

    /** What it is called in the results. */
    final String words;

    /** Runs that have it. */
    final int runs;

    /** The group that tells what is wrong; empty if none does. */
    final String group;

    Fault(String words, int runs, String group) {
        this.words = words;
        this.runs = runs;
        this.group = group;
    }

    boolean isIn(int run) {
        return run >= FaultSeason.FROM && run < FaultSeason.FROM + runs;
    }

    /** Codes of the products of which batches have too much. */
    Set<String> tooMuch() {
        return switch (this) {
            case NONE, SCALE_DAYS, SCALE_WEEK -> Set.of();
            case TOPSIDE_WEEK, TOPSIDE_SEASON -> Set.of("LEAN-TRIM");
            case LABELS -> Set.of("FILLET");
            case FOREQUARTERS -> Set.of("BRISKET", "CUBE-ROLL", "DICE", "LEAN-TRIM");
        };
    }

    /** Whether it moves a group to that side. */
    boolean moves(String moved, boolean high) {
        return switch (this) {
            case NONE -> false;
            case TOPSIDE_WEEK, TOPSIDE_SEASON -> moved.equals(high ? "Lean trim" : group);
            case SCALE_DAYS, SCALE_WEEK ->
                high ? moved.equals(group) : !Set.of(group, "Bone", "Fat").contains(moved);
            case LABELS -> moved.equals(high ? group : "Striploin steak");
            case FOREQUARTERS -> high;
        };
    }
}
