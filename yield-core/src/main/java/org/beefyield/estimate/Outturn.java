package org.beefyield.estimate;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.beefyield.cut.Cut;
import org.beefyield.cut.CutKind;
import org.beefyield.frame.Frame;
import org.beefyield.grid.TableLayout;
import org.beefyield.table.CuttingSpecification;
import org.beefyield.table.YieldTable;
import org.beefyield.text.Blocks;
import org.beefyield.text.Checks;
import org.beefyield.text.Place;
import org.beefyield.text.ShownInBlocks;
import org.beefyield.text.TextTable;
import org.jspecify.annotations.Nullable;

/**
 * What comes out of a carcass or a lot: kilograms of every cut at every level; each level adds up to the cold weight.
 *
 * <p>A cut may stand at several levels: fat trim comes off with the tissues and again when primals are cut to retail. A
 * call without a level means the last level at which the cut stands.
 */
public abstract sealed class Outturn implements ShownInBlocks
        permits YieldEstimate, LotEstimate, PartEstimate, DrawnCarcass {
    /** Code of the cut that stands for lean trim brought to a fat content. */
    public static final String MINCE_CODE = "mince";

    private final Model model;
    private final double coldWeightKg;
    /** kg by slot; behind the slots the fat in the lean trim of the last level. Not changed by mince. */
    private final double[] kgBySlot;

    private final @Nullable Mince mince;

    Outturn(Model model, double coldWeightKg, double[] kgBySlot) {
        this.model = model;
        this.coldWeightKg = coldWeightKg;
        this.kgBySlot = kgBySlot;
        this.mince = model.minceTarget().map(this::mince).orElse(null);
    }

    /** The cut that stands for lean trim brought to a fat content. */
    static Cut mince(String level) {
        return Cut.of(MINCE_CODE, "Mince", level, CutKind.MINCE);
    }

    /** The carcasses behind the figures, those of which the same part is taken together; none if the figures are certain. */
    abstract List<Moments> moments();

    /** Whether it is the estimate of a single carcass. */
    boolean isOneCarcass() {
        return false;
    }

    Model model() {
        return model;
    }

    /** Not to be changed. */
    double[] kgBySlot() {
        return kgBySlot;
    }

    private Mince mince(MinceTarget target) {
        MinceSlots slots = model.minceSlots();
        return Mince.of(
                target,
                slots.leanKg(kgBySlot),
                slots.fatInLeanKg(kgBySlot),
                slots.fatTrimKg(kgBySlot),
                slots.fatOfFatTrim(kgBySlot));
    }

    /**
     * The table behind the figures.
     *
     * @return the table
     */
    public YieldTable table() {
        return model.table();
    }

    /**
     * How the primals are cut.
     *
     * @return the cutting specification
     */
    public CuttingSpecification specification() {
        return model.specification();
    }

    /**
     * Cold weight that went in.
     *
     * @return kg; of parts of carcasses what they are expected to weigh
     */
    public double coldWeightKg() {
        return coldWeightKg;
    }

    /**
     * What became of the lean trim, if a mince target was set.
     *
     * @return the mince, or empty
     */
    public Optional<Mince> mince() {
        return Optional.ofNullable(mince);
    }

    /** How the mince differs from what was asked: one sentence, or none. */
    List<String> minceNotes() {
        return mince().map(Mince::note).filter(note -> !note.isEmpty()).stream().toList();
    }

    private TableLayout layout() {
        return model.layout();
    }

    /**
     * Kilograms of a cut at the last level at which it stands.
     *
     * @param cut code
     * @return kg, both sides together; 0 for a cut that the cutting specification doesn't yield
     * @throws IllegalArgumentException if the table has no such cut; the message offers the nearest codes
     */
    public double kg(String cut) {
        Objects.requireNonNull(cut, "cut");
        Mince made = made(lastLevel(), cut);
        if (made != null) {
            return made.kg();
        }
        int slot = layout().lastSlot(cut);
        return kg(slot, table().catalogue().cut(cut).kind());
    }

    private int lastLevel() {
        return layout().levels().size() - 1;
    }

    /** The mince if a cut at a level is that, null if it is a cut of the table or of nobody; refuses mince that isn't there. */
    private @Nullable Mince made(int level, String cut) {
        if (!cut.equals(MINCE_CODE) || table().catalogue().find(cut).isPresent()) {
            return null;
        }
        String last = layout().levels().get(lastLevel());
        if (mince == null) {
            String trim = layout().cutsAt(lastLevel()).stream()
                    .filter(one -> one.kind() == CutKind.LEAN_TRIM)
                    .map(Cut::code)
                    .collect(Collectors.joining(", "));
            throw new IllegalArgumentException("no cut \"" + MINCE_CODE + "\"; "
                    + (trim.isEmpty()
                            ? "table " + table().definition().name() + " yields no lean trim to make it of at level "
                                    + last
                            : "without a mince target, YieldEstimator.with(MinceTarget.fatPercent(15)), there is "
                                    + trim));
        }
        if (level != lastLevel()) {
            throw new IllegalArgumentException("cut \"" + MINCE_CODE + "\" does not stand at level "
                    + layout().levels().get(level) + "; it stands at " + last);
        }
        return mince;
    }

    /**
     * Kilograms of a cut at a level.
     *
     * @param level name of the level
     * @param cut code
     * @return kg, both sides together
     * @throws IllegalArgumentException if the table has no such level or cut, or the cut does not stand there
     */
    public double kg(String level, String cut) {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(cut, "cut");
        int index = layout().levelIndex(level);
        Mince made = made(index, cut);
        if (made != null) {
            return made.kg();
        }
        return kg(layout().slot(index, cut), table().catalogue().cut(cut).kind());
    }

    /** Kilograms in a slot after mincing. */
    private double kg(int slot, CutKind kind) {
        double kg = kgBySlot[slot];
        if (mince == null || slot < layout().start(layout().levels().size() - 1)) {
            return kg;
        }
        if (kind == CutKind.LEAN_TRIM) {
            return 0;
        }
        return kind == CutKind.FAT_TRIM
                ? Mince.leftKg(kg, mince.fatTrimKg(), model.minceSlots().fatTrimKg(kgBySlot))
                : kg;
    }

    /**
     * Fraction of the cold weight that a cut is, at the last level at which it stands.
     *
     * @param cut code
     * @return fraction
     * @throws IllegalArgumentException if the table has no such cut
     */
    public double share(String cut) {
        Objects.requireNonNull(cut, "cut");
        return kg(cut) / coldWeightKg;
    }

    /**
     * Kilograms of all cuts of a kind at the last level.
     *
     * @param kind kind
     * @return kg, 0 if nothing of the kind stands there
     */
    public double kg(CutKind kind) {
        Objects.requireNonNull(kind, "kind");
        return kindKg(layout().levels().size() - 1, kind);
    }

    /**
     * Kilograms of all cuts of a kind at a level.
     *
     * @param level name of the level
     * @param kind kind
     * @return kg, 0 if nothing of the kind stands there
     * @throws IllegalArgumentException if the table has no such level
     */
    public double kg(String level, CutKind kind) {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(kind, "kind");
        return kindKg(layout().levelIndex(level), kind);
    }

    private double kindKg(int level, CutKind kind) {
        TableLayout layout = layout();
        boolean last = level == layout.levels().size() - 1;
        double kg = mince != null && last && kind == CutKind.MINCE ? mince.kg() : 0;
        List<Cut> cuts = layout.cutsAt(level);
        for (int i = 0; i < cuts.size(); i++) {
            if (cuts.get(i).kind() == kind) {
                kg += kg(layout.start(level) + i, kind);
            }
        }
        return kg;
    }

    /**
     * Fat trim of the last level: all that came off, less what the mince took up.
     *
     * @return kg
     */
    public double fatTrimKg() {
        return kg(CutKind.FAT_TRIM);
    }

    /**
     * Bone of the last level.
     *
     * @return kg
     */
    public double boneKg() {
        return kg(CutKind.BONE);
    }

    /**
     * Loss of the last level: evaporation, drip, saw and floor.
     *
     * @return kg
     */
    public double lossKg() {
        return kg(CutKind.LOSS);
    }

    /**
     * Saleable meat of the last level: all but fat trim, bone and loss. Lean trim counts as it is if no mince target is
     * set.
     *
     * @return kg
     */
    public double saleableKg() {
        double kg = 0;
        for (CutKind kind : CutKind.values()) {
            kg += Figure.isMeat(kind) ? kg(kind) : 0;
        }
        return kg;
    }

    /**
     * Meat before it is split: the first level's weight less its fat trim, bone and loss.
     *
     * @return kg
     */
    public double meatKg() {
        double kg = 0;
        for (CutKind kind : CutKind.values()) {
            kg += Figure.isMeat(kind) ? kindKg(0, kind) : 0;
        }
        return kg;
    }

    /**
     * Fraction of the cold weight that a kind is at the last level.
     *
     * @param kind kind
     * @return fraction
     */
    public double share(CutKind kind) {
        Objects.requireNonNull(kind, "kind");
        return kg(kind) / coldWeightKg;
    }

    /**
     * Kilograms of a kind at the last level per kg of meat of the first level.
     *
     * @param kind kind
     * @return fraction; steaks, joints, dice, mince or lean trim, retail fat trim and retail loss add up to 1
     */
    public double shareOfMeat(CutKind kind) {
        Objects.requireNonNull(kind, "kind");
        double kg = kg(kind);
        if (!Figure.isMeat(kind)) {
            kg -= kindKg(0, kind);
        }
        return kg / meatKg();
    }

    /**
     * Fraction of the meat that is minced, or is lean trim for mince.
     *
     * @return fraction of the meat
     */
    public double minceShare() {
        return shareOfMeat(CutKind.MINCE) + shareOfMeat(CutKind.LEAN_TRIM);
    }

    /**
     * Fraction of the meat that is steaks.
     *
     * @return fraction of the meat
     */
    public double steakShare() {
        return shareOfMeat(CutKind.STEAK);
    }

    /**
     * Mean weight of one piece of a cut.
     *
     * @param cut code
     * @return kg of one piece of one side, or empty if the cut isn't sold by the piece
     * @throws IllegalArgumentException if the table has no such cut
     */
    public OptionalDouble pieceKg(String cut) {
        Objects.requireNonNull(cut, "cut");
        return made(lastLevel(), cut) != null
                ? OptionalDouble.empty()
                : table().catalogue().cut(cut).pieceKg(kg(cut));
    }

    /**
     * The cuts of a level with their weights and how sure these are, in printing order; a cut that the cutting specification
     * doesn't yield is 0. With a mince target the last level has mince in the place of lean trim.
     *
     * @param level name of the level
     * @return lines that add up to the cold weight
     * @throws IllegalArgumentException if the table has no such level
     */
    public List<CutLine> lines(String level) {
        Objects.requireNonNull(level, "level");
        TableLayout layout = layout();
        int index = layout.levelIndex(level);
        boolean minced = mince != null && index == layout.levels().size() - 1;
        List<CutLine> lines = new ArrayList<>();
        List<Cut> cuts = layout.cutsAt(index);
        boolean pending = minced;
        for (int i = 0; i < cuts.size(); i++) {
            Cut cut = cuts.get(i);
            if (pending && mince != null && (cut.kind() == CutKind.LEAN_TRIM || !Figure.isMeat(cut.kind()))) {
                lines.add(line(level, mince(level), mince.kg()));
                pending = false;
            }
            if (!(minced && cut.kind() == CutKind.LEAN_TRIM)) {
                lines.add(line(level, cut, kg(layout.start(index) + i, cut.kind())));
            }
        }
        if (pending && mince != null) {
            lines.add(line(level, mince(level), mince.kg()));
        }
        return lines;
    }

    private CutLine line(String level, Cut cut, double kg) {
        Figure figure = Figure.cut(level, cut.code());
        return new CutLine(level, cut, kg, kg / coldWeightKg, new CutLine.Spread() {
            @Override
            public double sdKg() {
                return sd(figure);
            }

            @Override
            public Interval interval(double probability) {
                return Outturn.this.interval(figure, probability);
            }
        });
    }

    /** What figures are made of, looked up here. */
    private final class Parts implements Figure.Parts {
        @Override
        public Figure.Sum cut(String cut) {
            return cutSum(cut);
        }

        @Override
        public Figure.Sum cut(String level, String cut) {
            return cutSum(level, cut);
        }

        @Override
        public Figure.Sum kind(CutKind kind) {
            return kindSum(kind);
        }
    }

    Figure.Sum sum(Figure figure) {
        return figure.of(new Parts());
    }

    private double[] gradient() {
        return new double[kgBySlot.length];
    }

    private Figure.Sum cutSum(String cut) {
        Mince made = made(lastLevel(), cut);
        return made != null
                ? minceSum(made)
                : slotSum(layout().lastSlot(cut), table().catalogue().cut(cut).kind());
    }

    private Figure.Sum cutSum(String level, String cut) {
        int index = layout().levelIndex(level);
        Mince made = made(index, cut);
        return made != null
                ? minceSum(made)
                : slotSum(
                        layout().slot(index, cut), table().catalogue().cut(cut).kind());
    }

    private Figure.Sum kindSum(CutKind kind) {
        int last = lastLevel();
        double[] gradient = mince != null && kind == CutKind.MINCE ? minceGradient(mince) : gradient();
        double kg = mince != null && kind == CutKind.MINCE ? mince.kg() : 0;
        List<Cut> cuts = layout().cutsAt(last);
        for (int i = 0; i < cuts.size(); i++) {
            if (cuts.get(i).kind() == kind) {
                addSlot(gradient, layout().start(last) + i, kind);
                kg += kg(layout().start(last) + i, kind);
            }
        }
        return new Figure.Sum(kg, gradient);
    }

    private Figure.Sum slotSum(int slot, CutKind kind) {
        double[] gradient = gradient();
        addSlot(gradient, slot, kind);
        return new Figure.Sum(kg(slot, kind), gradient);
    }

    private void addSlot(double[] gradient, int slot, CutKind kind) {
        boolean last = slot >= layout().start(lastLevel());
        if (mince == null || !last || kind != CutKind.LEAN_TRIM) {
            gradient[slot] += 1;
        }
        if (mince != null
                && last
                && kind == CutKind.FAT_TRIM
                && model.minceSlots().fatTrimKg(kgBySlot) > 0) {
            // what is left of one fat trim: its kg times (1 - taken up / all fat trim)
            double all = model.minceSlots().fatTrimKg(kgBySlot);
            double part = kgBySlot[slot] / all;
            double[] taken = takenUp(mince);
            for (int i = 0; i < gradient.length; i++) {
                gradient[i] -= part * taken[i];
            }
            gradient[slot] -= mince.fatTrimKg() / all;
            for (int other : model.minceSlots().fatTrim) {
                gradient[other] += part * mince.fatTrimKg() / all;
            }
        }
    }

    private Figure.Sum minceSum(Mince made) {
        return new Figure.Sum(made.kg(), minceGradient(made));
    }

    private double[] minceGradient(Mince made) {
        double[] gradient = takenUp(made);
        for (int slot : model.minceSlots().lean) {
            gradient[slot] += 1;
        }
        return gradient;
    }

    /** Change of the fat trim that the mince takes up: by Pearson's square, or as the fat trim there is, or none. */
    private double[] takenUp(Mince made) {
        double[] gradient = gradient();
        MinceSlots slots = model.minceSlots();
        if (made.isShortOfFatTrim()) {
            for (int slot : slots.fatTrim) {
                gradient[slot] = 1;
            }
        } else if (made.fatTrimKg() > 0) {
            double target = made.target().fat();
            double perKg = 1 / (made.fatOfFatTrim() - target);
            for (int slot : slots.lean) {
                gradient[slot] = target * perKg;
            }
            // fat trims of other fat contents change what the whole of them holds
            double all = slots.fatTrimKg(kgBySlot);
            for (int i = 0; i < slots.fatTrim.length; i++) {
                gradient[slots.fatTrim[i]] =
                        -made.fatTrimKg() * perKg * (slots.fatOfFatTrim[i] - made.fatOfFatTrim()) / all;
            }
            gradient[layout().size()] = -perKg;
        }
        return gradient;
    }

    /**
     * A figure in kg.
     *
     * @param figure figure
     * @return kg
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public double kg(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        return sum(figure).kg();
    }

    /**
     * SD of a figure from all parts of its uncertainty together.
     *
     * @param figure figure
     * @return kg
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public double sd(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        return Math.sqrt(Math.max(0, variance(sum(figure).gradient())));
    }

    /** Variance of a figure from all counted parts together. */
    double variance(double[] gradient) {
        return new Spreads(moments(), gradient).variance();
    }

    private Spreads spread(Figure figure) {
        return new Spreads(moments(), sum(figure).gradient());
    }

    /**
     * SD of a cut at the last level at which it stands, from all parts of its uncertainty together.
     *
     * @param cut code
     * @return kg
     * @throws IllegalArgumentException if the table has no such cut
     */
    public double sd(String cut) {
        Objects.requireNonNull(cut, "cut");
        return sd(Figure.cut(cut));
    }

    /**
     * SD of a cut at a level, from all parts of its uncertainty together.
     *
     * @param level name of the level
     * @param cut code
     * @return kg
     * @throws IllegalArgumentException if the table has no such level or cut, or the cut does not stand there
     */
    public double sd(String level, String cut) {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(cut, "cut");
        return sd(Figure.cut(level, cut));
    }

    /**
     * SD of all cuts of a kind at the last level together.
     *
     * @param kind kind
     * @return kg
     */
    public double sd(CutKind kind) {
        Objects.requireNonNull(kind, "kind");
        return sd(Figure.kind(kind));
    }

    /**
     * SD of a figure from one part of its uncertainty.
     *
     * @param figure figure
     * @param part the part
     * @return kg, 0 if the part isn't {@link #counted counted}
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public double sd(Figure figure, UncertaintyPart part) {
        Objects.requireNonNull(figure, "figure");
        Objects.requireNonNull(part, "part");
        return Math.sqrt(Math.max(0, spread(figure).variance(part)));
    }

    /**
     * Covariance of two figures from all parts together.
     *
     * @param a figure
     * @param b figure
     * @return kg squared
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public double covariance(Figure a, Figure b) {
        Objects.requireNonNull(a, "a");
        Objects.requireNonNull(b, "b");
        List<Moments> moments = moments();
        Spreads first = new Spreads(moments, sum(a).gradient());
        return first.covariance(a == b ? first : new Spreads(moments, sum(b).gradient()));
    }

    /**
     * The parts of the uncertainty that SDs, intervals and promises hold.
     *
     * @return all of them unless chosen otherwise, see {@link YieldEstimator#counting}; unmodifiable
     */
    public Set<UncertaintyPart> counted() {
        return model.counted();
    }

    /**
     * SDs of a figure from each part of its uncertainty at once.
     *
     * @param figure figure
     * @return kg by part, of {@link #counted counted} parts from which any comes; unmodifiable, in the order of the parts
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public Map<UncertaintyPart, Double> sdByPart(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        Map<UncertaintyPart, Double> sds = variances(figure);
        sds.values().removeIf(variance -> variance == 0);
        sds.replaceAll((part, variance) -> Math.sqrt(variance));
        return Collections.unmodifiableMap(sds);
    }

    /** Variance of a figure from each part; 0 of a part that isn't counted. */
    Map<UncertaintyPart, Double> variances(Figure figure) {
        Spreads spread = spread(figure);
        Map<UncertaintyPart, Double> variances = new EnumMap<>(UncertaintyPart.class);
        for (UncertaintyPart part : UncertaintyPart.values()) {
            variances.put(part, Math.max(0, spread.variance(part)));
        }
        return variances;
    }

    /**
     * The part from which most of a figure's uncertainty comes.
     *
     * @param figure figure
     * @return the part with the largest SD, or empty if the figure has none
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public Optional<UncertaintyPart> largestPart(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        Spreads spread = spread(figure);
        UncertaintyPart largest = null;
        double most = 0;
        for (UncertaintyPart part : UncertaintyPart.values()) {
            double variance = spread.variance(part);
            if (variance > most) {
                largest = part;
                most = variance;
            }
        }
        return Optional.ofNullable(largest);
    }

    /** How a figure may come out. */
    Outcome outcome(Figure figure) {
        Figure.Sum sum = sum(figure);
        boolean known = table().definition().residualDegreesOfFreedom() == null
                && table().definition().runDegreesOfFreedom() == null;
        double degrees = known ? Double.POSITIVE_INFINITY : degreesOfFreedom(variances(figure));
        return new Outcome(
                sum.kg(), Math.sqrt(Math.max(0, variance(sum.gradient()))), degrees, figure.isNeverNegative());
    }

    /** The same from variances that are known, those of some parts. */
    Outcome outcome(Figure figure, Map<UncertaintyPart, Double> variances) {
        double variance = variances.values().stream().mapToDouble(of -> of).sum();
        return new Outcome(kg(figure), Math.sqrt(variance), degreesOfFreedom(variances), figure.isNeverNegative());
    }

    /**
     * Degrees of freedom of a variance: Satterthwaite's, of the part between carcasses and of those that rest on how runs differ,
     * as far as the table says from how many each was estimated. Without errors that carcasses share, that between carcasses counts
     * for one carcass alone, as many average out what is not normal about one.
     */
    private double degreesOfFreedom(Map<UncertaintyPart, Double> variances) {
        return degreesOfFreedom(model, variances, isOneCarcass());
    }

    static double degreesOfFreedom(Model model, Map<UncertaintyPart, Double> variances, boolean isOneCarcass) {
        Double ofResidual = model.table().definition().residualDegreesOfFreedom();
        Double ofRuns = model.table().definition().runDegreesOfFreedom();
        double shared = variances.getOrDefault(UncertaintyPart.LOT, 0.0)
                + variances.getOrDefault(UncertaintyPart.RUN, 0.0)
                + variances.getOrDefault(UncertaintyPart.HALL, 0.0);
        if (ofResidual != null && ofRuns == null && shared <= 0) {
            return isOneCarcass ? ofResidual : Double.POSITIVE_INFINITY;
        }
        double all = variances.values().stream().mapToDouble(of -> of).sum();
        double residual = variances.getOrDefault(UncertaintyPart.BETWEEN_CARCASSES, 0.0);
        double byRuns = variances.getOrDefault(UncertaintyPart.RUN, 0.0)
                + variances.getOrDefault(UncertaintyPart.COEFFICIENTS, 0.0);
        double sum = (ofResidual == null ? 0 : residual * residual / ofResidual)
                + (ofRuns == null ? 0 : byRuns * byRuns / ofRuns);
        return sum > 0 ? all * all / sum : Double.POSITIVE_INFINITY;
    }

    /**
     * The interval that holds what a figure will weigh with a probability, from first-order propagation of all
     * {@link #counted counted} parts: normal, or Student's if the table's covariances between carcasses were estimated from a
     * trial, of a carcass with their degrees of freedom, and with Satterthwaite's where the table states errors that carcasses
     * have in common. It lies as far below the
     * estimate as above it, but for this: of a figure that can't be below 0 (a cut, a kind, or a sum of these in which none
     * counts for less than 0) both ends are 0 or more. This is the one place where that is so; a figure in which something
     * counts for less than 0, such as money with a cost in it, and a {@link Difference} keep their lower end.
     *
     * @param figure figure
     * @param probability above 0 and below 1
     * @return the interval
     * @throws IllegalArgumentException if the probability is outside its range, or the table has no such level or cut
     */
    public Interval interval(Figure figure, double probability) {
        Objects.requireNonNull(figure, "figure");
        return outcome(figure).interval(probability);
    }

    /**
     * What one may promise: the kilograms of which at least so much comes out with a probability. One-sided: at 95 % it is the
     * lower end of the 90 % interval.
     *
     * @param figure figure
     * @param probability above 0 and below 1, such as 0.95
     * @return kg; 0 or more of a figure that can't be below 0
     * @throws IllegalArgumentException if the probability is outside its range, or the table has no such level or cut
     */
    public double promise(Figure figure, double probability) {
        Objects.requireNonNull(figure, "figure");
        return outcome(figure).promise(probability);
    }

    /**
     * What one may promise of a cut at the last level at which it stands; see {@link #promise(Figure, double)}.
     *
     * @param cut code
     * @param probability above 0 and below 1, such as 0.95
     * @return kg, 0 or more
     * @throws IllegalArgumentException if the probability is outside its range, or the table has no such cut
     */
    public double promise(String cut, double probability) {
        Objects.requireNonNull(cut, "cut");
        return promise(Figure.cut(cut), probability);
    }

    /**
     * What one may promise of all cuts of a kind at the last level together; see {@link #promise(Figure, double)}.
     *
     * @param kind kind
     * @param probability above 0 and below 1, such as 0.95
     * @return kg, 0 or more
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public double promise(CutKind kind, double probability) {
        Objects.requireNonNull(kind, "kind");
        return promise(Figure.kind(kind), probability);
    }

    /**
     * The probability that at least so much of a figure comes out.
     *
     * @param figure figure
     * @param kg kilograms asked for
     * @return probability, 0 to 1
     * @throws IllegalArgumentException if the kilograms are no finite number, or the table has no such level or cut
     */
    public double chanceOfAtLeast(Figure figure, double kg) {
        Objects.requireNonNull(figure, "figure");
        return outcome(figure).chanceOfAtLeast(kg);
    }

    /**
     * The probability that at least so much of a cut, at the last level at which it stands, comes out.
     *
     * @param cut code
     * @param kg kilograms asked for
     * @return probability, 0 to 1
     * @throws IllegalArgumentException if the kilograms are no finite number, or the table has no such cut
     */
    public double chanceOfAtLeast(String cut, double kg) {
        Objects.requireNonNull(cut, "cut");
        return chanceOfAtLeast(Figure.cut(cut), kg);
    }

    /**
     * The probability that at least so much of a kind, all its cuts at the last level together, comes out.
     *
     * @param kind kind
     * @param kg kilograms asked for
     * @return probability, 0 to 1
     * @throws IllegalArgumentException if the kilograms are no finite number
     */
    public double chanceOfAtLeast(CutKind kind, double kg) {
        Objects.requireNonNull(kind, "kind");
        return chanceOfAtLeast(Figure.kind(kind), kg);
    }

    /**
     * How much more of a figure comes out here than of other carcasses, and how sure that is: see
     * {@link #minus(Figure, Outturn, Figure)}.
     *
     * @param other an outturn of other carcasses
     * @param figure figure
     * @return the difference
     * @throws IllegalArgumentException if the two were estimated from other tables or in another manner, or the table
     *     has no such level or cut
     */
    public Difference minus(Outturn other, Figure figure) {
        return minus(figure, other, figure);
    }

    /**
     * How much more a figure is here than another figure, such as a value at other prices, of other carcasses, and how sure that
     * is. Errors that both have in common cancel as far as kg and grades agree: the table's, that of an equal hall (carcasses
     * without one are taken to be cut in one hall), that of an equal run if its kill date is known, and that of an equal lot if its
     * kill date is known and its supplier or name. What single carcasses err doesn't cancel; of the same carcasses cut or priced
     * otherwise, see {@link #changeFrom(Figure, Outturn, Figure)}.
     *
     * @param figure figure of this outturn
     * @param other an outturn of other carcasses, by the same table and scale; cutting specification and mince may differ
     * @param otherFigure figure of that one
     * @return the difference
     * @throws IllegalArgumentException if the two were estimated from other tables, scales or parts of the uncertainty, or the
     *     table has no such level or cut
     */
    public Difference minus(Figure figure, Outturn other, Figure otherFigure) {
        return difference(figure, other, otherFigure, false);
    }

    /**
     * How much more of a figure comes out than of the same carcasses cut in another way: see
     * {@link #changeFrom(Figure, Outturn, Figure)}.
     *
     * @param before an outturn of the same carcasses
     * @param figure figure
     * @return the difference
     * @throws IllegalArgumentException if the carcasses are others, or the two were estimated from other tables, scales or parts
     *     of the uncertainty, or the table has no such level or cut
     */
    public Difference changeFrom(Outturn before, Figure figure) {
        Objects.requireNonNull(before, "before");
        return changeFrom(figure, before, figure);
    }

    /**
     * How much more a figure is than another figure of the same carcasses, such as their value cut in another way, and how sure
     * that is: all errors cancel, also of single carcasses, as far as both hang on the same breakdowns.
     *
     * @param figure figure of this outturn
     * @param before an outturn of the same carcasses
     * @param otherFigure figure of that one
     * @return the difference
     * @throws IllegalArgumentException if the carcasses are others, or the two were estimated from other tables, scales or parts
     *     of the uncertainty, or the table has no such level or cut
     */
    public Difference changeFrom(Figure figure, Outturn before, Figure otherFigure) {
        Objects.requireNonNull(before, "before");
        return difference(figure, before, otherFigure, true);
    }

    private Difference difference(Figure figure, Outturn other, Figure otherFigure, boolean same) {
        Objects.requireNonNull(figure, "figure");
        Objects.requireNonNull(other, "other");
        Objects.requireNonNull(otherFigure, "otherFigure");
        model.checkComparable(other.model);
        List<Moments> moments = moments();
        List<Moments> theirMoments = other.moments();
        if (same && !Moments.holdTheSame(moments, theirMoments)) {
            throw new IllegalArgumentException(
                    "the change of a figure is that of the same carcasses; these are others, see minus");
        }
        Figure.Sum own = sum(figure);
        Figure.Sum theirs = other.sum(otherFigure);
        Spreads spread = new Spreads(moments, own.gradient());
        Spreads theirSpread = new Spreads(theirMoments, theirs.gradient());
        Map<UncertaintyPart, Double> variances = new EnumMap<>(UncertaintyPart.class);
        for (UncertaintyPart part : UncertaintyPart.values()) {
            variances.put(part, spread.varianceOfDifference(theirSpread, part, same));
        }
        return new Difference(own.kg() - theirs.kg(), variances);
    }

    /**
     * The interval that holds a cut, at the last level at which it stands, with a probability.
     *
     * @param cut code
     * @param probability above 0 and below 1
     * @return the interval; its lower end is not below 0
     * @throws IllegalArgumentException if the probability is outside its range or the table has no such cut
     */
    public Interval interval(String cut, double probability) {
        Objects.requireNonNull(cut, "cut");
        return interval(Figure.cut(cut), probability);
    }

    /**
     * The interval that holds all cuts of a kind at the last level together.
     *
     * @param kind kind
     * @param probability above 0 and below 1
     * @return the interval; its lower end is not below 0
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public Interval interval(CutKind kind, double probability) {
        Objects.requireNonNull(kind, "kind");
        return interval(Figure.kind(kind), probability);
    }

    /**
     * The interval that holds a cut at a level with a probability.
     *
     * @param level name of the level
     * @param cut code
     * @param probability above 0 and below 1
     * @return the interval; its lower end is not below 0
     * @throws IllegalArgumentException if the probability is outside its range, or the table has no such level or cut, or
     *     the cut does not stand there
     */
    public Interval interval(String level, String cut, double probability) {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(cut, "cut");
        return interval(Figure.cut(level, cut), probability);
    }

    /**
     * Weight of the forequarters and hindquarters.
     *
     * @param quartering name of a quartering of the table
     * @return the quarters, which add up to the cold weight
     * @throws IllegalArgumentException if the table has none of that name
     */
    public Quarters quarters(String quartering) {
        Objects.requireNonNull(quartering, "name of a quartering");
        int level = table().quarteredLevel(quartering);
        Map<String, Double> foreShares = table().foreShares(quartering);
        double fore = 0;
        double all = 0;
        for (Cut cut : layout().cutsAt(level)) {
            double kg = kgBySlot[layout().slot(level, cut.code())];
            fore += kg * foreShares.getOrDefault(cut.code(), 0.0);
            all += kg;
        }
        return new Quarters(quartering, fore, all - fore);
    }

    /** What stands above the tables. */
    abstract String title();

    /** Decimals of printed kg. */
    abstract int decimals();

    /**
     * Everything that a reader of the figures should know, in words.
     *
     * @return notes, none if there is nothing to say
     */
    public abstract List<String> notes();

    /** Adds the columns that say what a frame is of. */
    <T> Frame.Builder<T> addHeads(Frame.Builder<T> rows) {
        return rows.text(CarcassHeads.TABLE, row -> table().identity());
    }

    /**
     * The cuts of the last level as a frame.
     *
     * @return as {@link #toFrame(String)}
     */
    public Frame toFrame() {
        List<String> levels = table().levels();
        return toFrame(levels.get(levels.size() - 1));
    }

    /**
     * The cuts of a level as a frame; those that don't come out have no row.
     *
     * @param level name of the level
     * @return what it is of (a carcass as {@link Frames} has it, or the name of the {@code lot} and its {@code carcasses}) and
     *     {@code table}; then {@code level}, {@code cut} (its code), {@code kind}, {@code weight} in kg, {@code share} in % of
     *     cold weight, {@code SD}, {@code 90 % interval low} and {@code 90 % interval high} in kg, these missing where the table
     *     states no SDs
     * @throws IllegalArgumentException if the table has no such level
     */
    public Frame toFrame(String level) {
        Objects.requireNonNull(level, "level");
        return OutturnText.frame(this, level);
    }

    /** What the figures rest on, in words; none if that isn't known. */
    List<String> supportWords() {
        return List.of();
    }

    /** Whether tables show intervals of any hall and of one that cuts as the table does side by side. */
    boolean showsBothHalls() {
        return false;
    }

    /** Whether tables show how much lies in the quarters. */
    boolean showsQuarters() {
        return true;
    }

    /** Whether tables show intervals beside the figures. */
    boolean showsIntervals() {
        return table().statesSds();
    }

    /**
     * The figures for people: every level as a table in kg, with intervals if the table of yields states SDs, and per cent;
     * quarters, notes and cautions.
     *
     * @return its sentences and tables
     */
    @Override
    public Blocks blocks() {
        return OutturnText.blocks(this);
    }

    /**
     * A level as a table: cut, kg, per cent of the cold weight and, if the table states SDs, the 90 % interval. Printed
     * figures add up to the printed total; cuts that the specification doesn't yield are left out.
     *
     * @param level name of the level
     * @param decimals decimals of the kg, 0 or more
     * @return a table with a total
     * @throws IllegalArgumentException if the table has no such level
     */
    public TextTable levelTable(String level, int decimals) {
        Objects.requireNonNull(level, "level");
        return OutturnText.levelTable(this, level, decimals, Cut::name);
    }

    /**
     * The kg of a level as tables print them: they add up to the cold weight, and a cut that goes on to the next level as it is has
     * the same figure there.
     *
     * @param level name of the level
     * @param decimals decimals of the kg, 0 or more
     * @return a figure for each of {@link #lines(String)} that isn't 0 kg
     * @throws IllegalArgumentException if the table has no such level
     */
    public List<BigDecimal> printedKg(String level, int decimals) {
        Objects.requireNonNull(level, "level");
        return OutturnText.printedKg(this, level, decimals);
    }

    /**
     * {@link #levelTable(String, int)} with the names that the table has for its cuts in another language; a cut without
     * one keeps its own.
     *
     * @param level name of the level
     * @param decimals decimals of the kg, 0 or more
     * @param language BCP 47 tag, such as {@code de}
     * @return a table with a total
     * @throws IllegalArgumentException if the table has no such level
     */
    public TextTable levelTable(String level, int decimals, String language) {
        Objects.requireNonNull(level, "level");
        Objects.requireNonNull(language, "language");
        return OutturnText.levelTable(
                this,
                level,
                decimals,
                cut -> table().catalogue()
                        .find(cut.code())
                        .flatMap(known -> table().name(known.code(), language))
                        .orElse(cut.name()));
    }

    /**
     * What may be promised: of every cut of the last level the kilograms that come out at least with a probability, rounded
     * down, and what they are most uncertain by. Each cut by itself: that all of them come out at least so is less sure.
     *
     * @param probability above 0 and below 1
     * @return a table without a total
     * @throws IllegalArgumentException if the probability is outside its range
     */
    public TextTable promiseTable(double probability) {
        return OutturnText.promiseTable(this, probability);
    }

    /**
     * What the interval of a figure holds, in words: whether it means what will be weighed, which parts are in it, and which
     * is the largest.
     *
     * @param figure figure
     * @return a sentence, or none if the figure has no uncertainty
     * @throws IllegalArgumentException if the table has no such level or cut
     */
    public List<String> intervalWords(Figure figure) {
        Objects.requireNonNull(figure, "figure");
        return PartsText.of(counted(), List.of(variances(figure))).sentences(PartsText.Of.OUTCOME);
    }

    /**
     * Kinds side by side, such as one lot under several cutting specifications: kg of each kind at the last level, to the
     * place that their SDs justify. Printed figures add up to each printed total.
     *
     * @param outturns one column each, headed by its cutting specification
     * @return a table with a total
     */
    public static TextTable kindTable(List<? extends Outturn> outturns) {
        Checks.noNullIn(outturns, "outturns");
        return OutturnText.kindTable(outturns);
    }

    /**
     * Kinds side by side, such as one lot under several cutting specifications: kg of each kind at the last level.
     * Printed figures add up to each printed total.
     *
     * @param outturns one column each, headed by its cutting specification
     * @param decimals decimals of the kg, 0 or more
     * @return a table with a total
     */
    public static TextTable kindTable(List<? extends Outturn> outturns, int decimals) {
        Checks.noNullIn(outturns, "outturns");
        return OutturnText.kindTable(outturns, Place.decimals(decimals));
    }
}
