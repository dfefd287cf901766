package org.beefyield.cut;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CutCatalogueTest {
    private static final List<Cut> CUTS = cuts(
            "topside", "silverside", "striploin", "striploin-steak", "striploin-joint", "rump", "rump-steak", "bone");
    private static final CutCatalogue CATALOGUE = CutCatalogue.of(CUTS);

    private static List<Cut> cuts(String... codes) {
        return Stream.of(codes)
                .map(code -> Cut.of(code, "Name of " + code, "primal", CutKind.PRIMAL))
                .toList();
    }

    @Test
    void cutsPrintInTheOrderInWhichTheyCame() {
        assertThat(CATALOGUE.cuts()).containsExactlyElementsOf(CUTS);
        assertThat(CutCatalogue.of(List.of()).cuts()).isEmpty();
    }

    @Test
    void aCutIsFoundByItsCode() {
        assertThat(CATALOGUE.cut("rump-steak")).isEqualTo(CUTS.get(6));
        assertThat(CATALOGUE.find("rump-steak")).contains(CUTS.get(6));
        assertThat(CATALOGUE.find("rump-joint")).isEmpty();
    }

    @Test
    void neitherTheCallersListNorTheReturnedOneChangesTheCatalogue() {
        List<Cut> given = new ArrayList<>(CUTS);
        CutCatalogue catalogue = CutCatalogue.of(given);
        given.clear();

        assertThat(catalogue.cuts()).isEqualTo(CUTS);
        assertThatThrownBy(() -> catalogue.cuts().clear()).isInstanceOf(UnsupportedOperationException.class);
    }

    @Test
    void aCodeThatStandsTwiceIsRefused() {
        assertThatThrownBy(() -> CutCatalogue.of(cuts("rump", "topside", "rump")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("cut \"rump\" stands twice in the catalogue");
    }

    @ParameterizedTest
    @CsvSource({
        // a letter dropped, swapped, wrong or too many; the others by edit distance, ties in printing order
        "stripoin,'striploin, topside, striploin-steak'",
        "rmup,'rump, bone, topside'",
        "bume,'rump, bone, topside'",
        "rump-steaks,'rump-steak, rump, topside'",
        "striploin-stek,'striploin-steak, striploin, striploin-joint'"
    })
    void anUnknownCodeIsAnsweredWithTheThreeNearestOnes(String code, String nearest) {
        assertThat(CATALOGUE.unknown(code)).isEqualTo("no cut \"" + code + "\"; nearest: " + nearest);
        assertThatThrownBy(() -> CATALOGUE.cut(code))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("no cut \"" + code + "\"; nearest: " + nearest);
    }

    @ParameterizedTest
    @CsvSource({"STRIPLOIN,striploin", "Rump steak,rump-steak", "RUMP_STEAK,rump-steak", "' Bone ',bone"})
    void aCodeInCapitalsOrWithBlanksIsAnsweredWithTheCodeThatWasMeant(String code, String meant) {
        assertThat(CATALOGUE.unknown(code)).startsWith("no cut \"" + code + "\"; nearest: " + meant + ",");
    }

    @Test
    void aShortCatalogueOffersWhatItHas() {
        assertThat(CutCatalogue.of(cuts("rump")).unknown("bone")).isEqualTo("no cut \"bone\"; nearest: rump");
    }
}
