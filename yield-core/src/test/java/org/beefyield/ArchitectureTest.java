package org.beefyield;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.conditions.ArchPredicates.are;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noMethods;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitAccessTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaMember;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.domain.JavaType;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import java.lang.reflect.Field;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.beefyield.text.Shown;
import org.beefyield.text.TextTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Which package may use which, and what none of them may use. */
class ArchitectureTest {
    private static final JavaClasses CORE = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.beefyield");

    /** What every package may use: the root holds nothing but what all exceptions have in common. */
    private static final String[] OUTSIDE = {"java..", "org.jspecify.annotations..", "org.beefyield"};

    private static final String COMMONS_MATH = "org.apache.commons.math3..";
    private static final String DISTRIBUTIONS = "org.apache.commons.math3.distribution";

    /** Packages that may use Commons Math. */
    private static final Set<String> MATHEMATICAL =
            Set.of("stats", "table", "estimate", "pack", "calibrate", "finish", "plan");

    private static final List<String> ABOVE_NOTHING = List.of();
    private static final List<String> ABOVE_TEXT = List.of("text");
    private static final List<String> ABOVE_DOMAIN = List.of("carcass", "cut", "text");
    /** What results make frames of themselves with. */
    private static final String FRAME = "frame";

    private static final List<String> ABOVE_DEFINITION = and(ABOVE_DOMAIN, "table.definition");
    private static final List<String> ABOVE_GRID = and(ABOVE_DEFINITION, "grid");
    private static final List<String> ABOVE_TABLE = and(ABOVE_GRID, "table");
    /** The engine is for tables and estimates alone. */
    private static final List<String> ABOVE_ESTIMATE = and(ABOVE_DEFINITION, "table", FRAME, "estimate");

    private static List<String> and(List<String> names, String... more) {
        return Stream.concat(names.stream(), Stream.of(more)).toList();
    }

    static Stream<Arguments> packages() {
        return Stream.of(
                Arguments.of("", ABOVE_NOTHING),
                Arguments.of("text", ABOVE_NOTHING),
                Arguments.of("stats", ABOVE_NOTHING),
                Arguments.of("carcass", ABOVE_TEXT),
                Arguments.of("cut", ABOVE_TEXT),
                Arguments.of("table.definition", ABOVE_DOMAIN),
                Arguments.of("grid", ABOVE_DEFINITION),
                Arguments.of("table", and(ABOVE_GRID, FRAME)),
                Arguments.of("frame", List.of("text", "stats")),
                Arguments.of("estimate", and(ABOVE_TABLE, FRAME)),
                Arguments.of("lp", ABOVE_TEXT),
                Arguments.of("market", List.of("carcass", "text", FRAME)),
                Arguments.of("price", ABOVE_ESTIMATE),
                Arguments.of("pay", and(ABOVE_ESTIMATE, "price")),
                Arguments.of("pack", and(ABOVE_ESTIMATE, "price", "market")),
                Arguments.of("feedback", and(ABOVE_ESTIMATE, "price", "market")),
                Arguments.of("plan", and(ABOVE_ESTIMATE, "price", "market", "pack", "boning", "lp")),
                Arguments.of("finish", and(ABOVE_ESTIMATE, "stats", "price", "market", "pay", "feedback")),
                Arguments.of("json", and(ABOVE_ESTIMATE, "price")),
                Arguments.of("boning", and(ABOVE_DEFINITION, "table", FRAME)),
                Arguments.of("calibrate", and(ABOVE_ESTIMATE, "grid", "stats", "boning", "reconcile", "price")),
                Arguments.of("reconcile", and(ABOVE_ESTIMATE, "price", "stats", "boning")),
                Arguments.of(
                        "report",
                        and(ABOVE_ESTIMATE, "price", "pay", "market", "pack", "feedback", "boning", "reconcile")));
    }

    private static String[] allPackages() {
        return packages().map(arguments -> named((String) arguments.get()[0])).toArray(String[]::new);
    }

    private static String named(String name) {
        return name.isEmpty() ? "org.beefyield" : "org.beefyield." + name;
    }

    private static String[] allowed(String name, List<String> others) {
        return Stream.concat(
                        Stream.of(OUTSIDE),
                        Stream.concat(
                                MATHEMATICAL.contains(name) ? Stream.of(COMMONS_MATH) : Stream.of(),
                                Stream.concat(Stream.of(name), others.stream()).map(ArchitectureTest::named)))
                .toArray(String[]::new);
    }

    @ParameterizedTest
    @MethodSource("packages")
    void aPackageUsesOnlyThoseBelowIt(String name, List<String> others) {
        classes()
                .that()
                .resideInAPackage(named(name))
                .should()
                .onlyDependOnClassesThat(are(resideInAnyPackage(allowed(name, others))))
                .check(CORE);
    }

    @Test
    void everyClassStandsInAPackageThatHasARule() {
        classes().should().resideInAnyPackage(allPackages()).check(CORE);
    }

    private static final String ENGINE = "org.beefyield.grid";

    @Test
    void nothingPublicOutsideTheEngineNamesOneOfItsTypes() {
        List<String> named = new ArrayList<>();
        int looked = 0;
        for (JavaClass type : CORE) {
            if (type.getPackageName().equals(ENGINE) || !isOffered(type)) {
                continue;
            }
            Stream<JavaType> ofType = Stream.concat(
                    type.getSuperclass().stream(),
                    Stream.concat(
                            type.getInterfaces().stream(),
                            type.getTypeParameters().stream()
                                    .flatMap(parameter -> parameter.getUpperBounds().stream())));
            noteEngine(type.getName(), ofType, named);
            for (JavaField field : type.getFields()) {
                if (isOffered(field)) {
                    noteEngine(field.getFullName(), Stream.of(field.getType()), named);
                    looked++;
                }
            }
            for (JavaCodeUnit unit : type.getCodeUnits()) {
                if (isOffered(unit)) {
                    noteEngine(
                            unit.getFullName(),
                            Stream.of(
                                            Stream.of(unit.getReturnType()),
                                            unit.getParameterTypes().stream(),
                                            unit.getExceptionTypes().stream(),
                                            unit.getTypeParameters().stream()
                                                    .flatMap(parameter -> parameter.getUpperBounds().stream()))
                                    .flatMap(types -> types),
                            named);
                    looked++;
                }
            }
        }
        assertThat(named).isEmpty();
        assertThat(looked).isGreaterThan(500);
    }

    /** Whether callers see a class: it and all that it stands in are public. */
    private static boolean isOffered(JavaClass type) {
        return isOffered(type.getModifiers())
                && type.getEnclosingClass().map(ArchitectureTest::isOffered).orElse(true);
    }

    private static boolean isOffered(JavaMember member) {
        return isOffered(member.getModifiers());
    }

    private static boolean isOffered(Set<JavaModifier> modifiers) {
        return (modifiers.contains(JavaModifier.PUBLIC) || modifiers.contains(JavaModifier.PROTECTED))
                && !modifiers.contains(JavaModifier.SYNTHETIC);
    }

    private static void noteEngine(String where, Stream<? extends JavaType> types, List<String> named) {
        types.flatMap(type -> type.getAllInvolvedRawTypes().stream())
                .filter(type -> type.getPackageName().equals(ENGINE))
                .forEach(type -> named.add(where + " names " + type.getSimpleName()));
    }

    /**
     * Nested classes count with the outermost, the words of a result, {@code XText}, with the result, and the types that a
     * sealed one permits don't count as its own.
     */
    @Test
    void noClassesDependOnOneAnotherInACircle() {
        slices().assignedFrom(new SliceAssignment() {
                    @Override
                    public SliceIdentifier getIdentifierOf(JavaClass type) {
                        return SliceIdentifier.of(type.getPackageName(), outermost(type));
                    }

                    @Override
                    public String getDescription() {
                        return "classes";
                    }
                })
                .should()
                .beFreeOfCycles()
                .check(CORE);
    }

    private static String outermost(JavaClass type) {
        return type.getEnclosingClass()
                .map(ArchitectureTest::outermost)
                .orElseGet(() -> type.getSimpleName().replaceAll("Text$", ""));
    }

    @Test
    void nothingReachesForAFileOrTheNetwork() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.nio.file..", "java.nio.channels..", "java.net..")
                .orShould()
                .dependOnClassesThat()
                .haveNameMatching("java\\.io\\.(File|RandomAccessFile|Console).*")
                .check(CORE);
    }

    @Test
    void nothingReadsAClock() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.time\\.(Clock|InstantSource)|java\\.util\\.(Timer.*|Date|Calendar)")
                .orShould()
                .accessTargetWhere(member(System.class, "currentTimeMillis", "nanoTime"))
                .orShould()
                .accessTargetWhere(describe(
                        "a now() of java.time",
                        (JavaAccess<?> access) -> access.getTarget().getName().equals("now")
                                && access.getTargetOwner().getPackageName().startsWith("java.time")))
                .check(CORE);
    }

    @Test
    void nothingUsesReflection() {
        Set<String> harmless = Set.of("getName", "getSimpleName", "isInstance", "cast", "desiredAssertionStatus");
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.lang.reflect..")
                .orShould()
                .dependOnClassesThat()
                .haveNameMatching("java\\.lang\\.ClassLoader|java\\.util\\.ServiceLoader.*")
                .orShould()
                .accessTargetWhere(describe(
                        "a method of Class that looks inside a class or loads one",
                        (JavaAccess<?> access) -> access.getTargetOwner().isEquivalentTo(Class.class)
                                && !harmless.contains(access.getTarget().getName())))
                .check(CORE);
    }

    @Test
    void nothingLogsOrPrints() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "java.util.logging..", "org.slf4j..", "org.apache.logging..", "org.apache.commons.logging..")
                .orShould()
                .dependOnClassesThat()
                .haveNameMatching("java\\.lang\\.System\\$Logger.*")
                .orShould()
                .accessTargetWhere(member(System.class, "out", "err"))
                .orShould()
                .accessTargetWhere(member(Throwable.class, "printStackTrace"))
                .check(CORE);
    }

    @Test
    void nothingUsesJacksonOrAnotherLibrary() {
        noClasses()
                .should()
                .dependOnClassesThat(are(DescribedPredicate.not(
                        resideInAnyPackage("java..", "org.jspecify.annotations..", COMMONS_MATH, "org.beefyield.."))))
                .check(CORE);
    }

    @Test
    void chanceComesFromTheCaller() {
        noClasses()
                .should()
                .accessTargetWhere(describe(
                        "a Random without a seed",
                        (JavaAccess<?> access) -> access.getTarget() instanceof CodeUnitAccessTarget target
                                && target.getName().equals("<init>")
                                && target.getOwner().isAssignableTo(java.util.random.RandomGenerator.class)
                                && target.getRawParameterTypes().isEmpty()))
                .orShould()
                .accessTargetWhere(describe(
                        "a distribution of Commons Math that seeds its own generator from the clock",
                        (JavaAccess<?> access) -> access.getTarget() instanceof CodeUnitAccessTarget target
                                && target.getName().equals("<init>")
                                && target.getOwner().getPackageName().equals(DISTRIBUTIONS)
                                && (target.getRawParameterTypes().isEmpty()
                                        || !target.getRawParameterTypes()
                                                .get(0)
                                                .isEquivalentTo(RandomGenerator.class))))
                .orShould()
                .accessTargetWhere(member(Math.class, "random"))
                .orShould()
                .accessTargetWhere(member(UUID.class, "randomUUID"))
                .orShould()
                .dependOnClassesThat()
                .haveNameMatching("java\\.util\\.concurrent\\.ThreadLocalRandom|java\\.security\\.SecureRandom")
                .check(CORE);
    }

    /** Any use of a member, called or referred to, also through a subclass. */
    private static DescribedPredicate<JavaAccess<?>> member(Class<?> owner, String... names) {
        return describe(
                owner.getSimpleName() + "." + String.join(" or ", names),
                access -> access.getTargetOwner().isAssignableTo(owner)
                        && List.of(names).contains(access.getTarget().getName()));
    }

    @Test
    void noStaticFieldCanChange() {
        fields().that()
                .areStatic()
                .and()
                .doNotHaveModifier(JavaModifier.SYNTHETIC)
                .should()
                .beFinal()
                .andShould()
                .haveRawType(describe("one that can't change", ArchitectureTest::cannotChange))
                .check(CORE);
    }

    /** Types that a constant may have; the collections among them are looked at by the next test. */
    private static boolean cannotChange(JavaClass type) {
        return type.isPrimitive()
                || type.isEquivalentTo(String.class)
                || type.isEquivalentTo(List.class)
                || type.isEquivalentTo(Set.class)
                || type.isEquivalentTo(Map.class)
                || type.isEquivalentTo(Comparator.class)
                || type.isEquivalentTo(Pattern.class)
                // holds figures only, as long as it has no generator of its own: see chanceComesFromTheCaller
                || type.isEquivalentTo(NormalDistribution.class)
                || type.getPackageName().startsWith("org.beefyield");
    }

    @Test
    void staticCollectionsAreUnmodifiable() throws ReflectiveOperationException {
        int seen = 0;
        for (JavaClass type : CORE) {
            for (JavaField field : type.getFields()) {
                boolean collection = field.getRawType().isAssignableTo(Collection.class)
                        || field.getRawType().isAssignableTo(Map.class);
                if (collection && field.getModifiers().contains(JavaModifier.STATIC)) {
                    Field reflected = field.reflect();
                    reflected.setAccessible(true);
                    assertThat(reflected.get(null).getClass().getName())
                            .as(field.getFullName())
                            .matches("java\\.util\\.(ImmutableCollections|Collections)\\$.*");
                    seen++;
                }
            }
        }
        if (seen == 0) {
            fail("no static collection was looked at");
        }
    }

    /** Public types of these packages that are no results of their own: what goes in, and parts of a result. */
    private static final Map<String, Set<String>> NO_RESULTS = Map.of(
            "estimate",
            Set.of(
                    "CarcassColumns",
                    "CarcassPart",
                    "Cautions",
                    "CutLine",
                    "Figure",
                    "FigureSum",
                    "Frames",
                    "GradeCell",
                    "Interval",
                    "LotNote",
                    "MinceTarget",
                    "Quarters",
                    "RangeNote",
                    "Refusal",
                    "RefusedCarcassException",
                    "ScaleError",
                    "TriedEstimate",
                    "YieldColumn",
                    "YieldColumns",
                    "YieldEstimator"),
            "frame",
            Set.of("Column", "Statistic", "Total"),
            "price",
            Set.of("MissingPriceException", "Money", "PriceList", "ValueLine", "Valuer"),
            "pay",
            Set.of("GridChange", "Margin", "PaidBeside", "PayEffect", "PaymentGrid"),
            "report",
            Set.of("Compared", "Unexplained"),
            "market",
            Set.of("MarketFault", "MarketSpecification", "SizeWindow"),
            "pack",
            Set.of("Downgrade", "PackFit", "PieceWeight", "WindowChance"),
            "feedback",
            Set.of("AdviceFact", "FeedbackSheets", "Overfat"),
            "boning",
            Set.of(
                    "Balance",
                    "BalanceRule",
                    "BatchExcess",
                    "BatchExpectation",
                    "BatchMass",
                    "Blank",
                    "BoningRun",
                    "Box",
                    "Closing",
                    "Intake",
                    "Origin",
                    "Product",
                    "Quarter",
                    "RefusedTrial",
                    "Rest",
                    "RunBalance",
                    "TraceFinding",
                    "TracedBox",
                    "TracedPiece",
                    "Trial",
                    "TrialSelection",
                    "TrialSet",
                    "WeighedBreakdown"),
            "calibrate",
            Set.of("BreakdownFit", "Calibration", "Drift", "Finding", "HeldBack", "LearntGroup", "RunCalibration"));

    @Test
    void everyResultShowsItself() {
        List<String> silent = new ArrayList<>();
        List<String> listedInVain = new ArrayList<>();
        for (JavaClass type : CORE) {
            String within =
                    type.getPackageName().substring(type.getPackageName().lastIndexOf('.') + 1);
            if (!type.getModifiers().contains(JavaModifier.PUBLIC)
                    || type.isNestedClass()
                    || type.isInterface()
                    || type.isEnum()) {
                continue;
            }
            boolean shown = type.isAssignableTo(Shown.class);
            boolean printsItself = type.getMethods().stream()
                    .anyMatch(method -> method.getModifiers().contains(JavaModifier.PUBLIC)
                            && method.getRawParameterTypes().isEmpty()
                            && (method.getName().equals("toText")
                                    || method.getName().equals("toHtml")
                                    || method.getRawReturnType().isEquivalentTo(TextTable.class)));
            boolean listed = NO_RESULTS.getOrDefault(within, Set.of()).contains(type.getSimpleName());
            if (!shown && (printsItself || (NO_RESULTS.containsKey(within) && !listed))) {
                silent.add(type.getName());
            }
            if (shown && listed) {
                listedInVain.add(type.getName());
            }
        }
        assertThat(silent).as("results that are not Shown").isEmpty();
        assertThat(listedInVain).as("listed as no results, yet Shown").isEmpty();
    }

    /** What README says: values may be shared between threads, what collects belongs to one. */
    @Test
    void onlyWhatCollectsChangesItsFields() {
        fields().that()
                .areNotStatic()
                .and()
                .areNotFinal()
                .and()
                .areDeclaredInClassesThat(are(describe(
                        "public", (JavaClass type) -> type.getModifiers().contains(JavaModifier.PUBLIC))))
                .should()
                .beDeclaredInClassesThat()
                .haveNameMatching(".*(Builder|Collector|Blocks|TextTable|TableOverride)")
                .check(CORE);
    }

    @Test
    void noFieldIsPublicUnlessItIsAConstant() {
        fields().that().arePublic().should().beStatic().andShould().beFinal().check(CORE);
    }

    /** {@code yield(...)} can't be called without a qualifier since Java 14. */
    @Test
    void noMethodIsCalledYield() {
        noMethods().should().haveName("yield").check(CORE);
    }
}
