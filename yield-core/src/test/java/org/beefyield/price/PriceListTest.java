package org.beefyield.price;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import java.util.TreeMap;
import org.beefyield.cut.CutKind;
import org.junit.jupiter.api.Test;

class PriceListTest {
    @Test
    void everyPriceCanBeReadAndAListBeMadeOfThem() {
        PriceList list = PriceList.builder("EUR")
                .decimals(3)
                .cut("striploin", 12.5)
                .kind(CutKind.MINCE, 6)
                .mince(20, 5.8)
                .mince(15, 6.2)
                .mince(5.1)
                .otherPerHead("hide", 40)
                .otherPerKg("boning", -0.5)
                .build();
        assertThat(list.cuts()).isEqualTo(Map.of("striploin", 12.5));
        assertThat(list.kinds()).isEqualTo(Map.of(CutKind.MINCE, 6.0));
        assertThat(list.mince()).isEqualTo(new TreeMap<>(Map.of(15.0, 6.2, 20.0, 5.8)));
        assertThat(list.mince().keySet()).containsExactly(15.0, 20.0);
        assertThat(list.anyMince()).hasValue(5.1);
        PriceList.Builder again = PriceList.builder(list.currency()).decimals(list.decimals());
        list.cuts().forEach(again::cut);
        list.kinds().forEach(again::kind);
        list.mince().forEach(again::mince);
        list.anyMince().ifPresent(again::mince);
        list.others().forEach(other -> {
            if (other.per() == PriceList.OtherLine.Per.HEAD) {
                again.otherPerHead(other.name(), other.amount());
            } else {
                again.otherPerKg(other.name(), other.amount());
            }
        });
        assertThat(again.build()).isEqualTo(list);
        assertThat(PriceList.builder("EUR").build().mince()).isEmpty();
        assertThat(PriceList.builder("EUR").build().anyMince()).isEmpty();
    }

    @Test
    void minceIsSoldAtThePriceOfTheNextFatterContent() {
        PriceList list = PriceList.builder("EUR").mince(15, 6.2).mince(20, 5.8).build();
        assertThat(list.minceAt(0)).hasValue(6.2);
        assertThat(list.minceAt(0.15)).hasValue(6.2);
        assertThat(list.minceAt(0.151)).hasValue(5.8);
        assertThat(list.minceAt(0.201)).isEmpty();
        assertThat(list.toBuilder().mince(5.1).build().minceAt(0.201)).hasValue(5.1);
        assertThat(list.toBuilder().kind(CutKind.MINCE, 5).build().minceAt(1)).hasValue(5);
        assertThatThrownBy(() -> list.minceAt(15)).hasMessage("fat content of mince 15.0 is outside 0 to 1");
        assertThatThrownBy(() -> list.minceAt(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }
}
