/**
 * A folder of kill sheets on a cluster: {@link org.beefyield.spark.KillSheetJob} gives each sheet to one task, which runs
 * the library as any program does, and adds up what comes back.
 */
@NullMarked
package org.beefyield.spark;

import org.jspecify.annotations.NullMarked;
