package org.beefyield.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class BlocksTest {
    @Test
    void whatIsSaidOnceIsNotSaidAgainAndTablesStay() {
        TextTable table = new TextTable("cut", "kg").row("Rump", "3.1");
        ShownInBlocks result =
                () -> new Blocks().sentence("One").sentence("Two").add(table);
        Set<String> said = new HashSet<>(Set.of("Two"));

        Blocks once = new Blocks()
                .sentence("Three")
                .add(result)
                .add(new Blocks().sentence("One").add(table))
                .saidOnce(said);

        assertThat(once.toText()).containsOnlyOnce("One").contains("Three").doesNotContain("Two");
        assertThat(once.toText().split("Rump", -1)).hasSize(3);
        assertThat(said).containsExactlyInAnyOrder("One", "Two", "Three");
    }
}
