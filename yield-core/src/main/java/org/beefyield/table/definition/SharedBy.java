package org.beefyield.table.definition;

/** What carcasses may have in common that errs: each has one error for all of them, beside the residual of each carcass. */
public enum SharedBy {
    /** Cattle of one lot: one type, herd and feeding. */
    LOT,
    /** What one hall bones in one run: the day, the team, the chiller. */
    RUN,
    /** The hall: it cuts otherwise than the one that the table comes from. */
    HALL
}
