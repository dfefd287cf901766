package org.beefyield.data;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackage;
import static com.tngtech.archunit.lang.conditions.ArchPredicates.are;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.domain.JavaType;
import com.tngtech.archunit.core.domain.JavaTypeVariable;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Which package of this module may use which other one, and which library. */
class DataArchitectureTest {
    private static final JavaClasses DATA = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("org.beefyield.data");

    private static final String SHARED = "org.beefyield.data";
    private static final String FILE = "org.beefyield.data.file";
    private static final String PICTURE = "org.beefyield.data.picture..";
    private static final String COMMAND = "org.beefyield.data.command..";
    private static final String NOTEBOOK = "org.beefyield.data.notebook..";

    static Stream<Arguments> packages() {
        List<String> ofFiles = List.of("", "file");
        return Stream.of(
                Arguments.of("", List.of("file")),
                Arguments.of("file", List.of("")),
                Arguments.of("table", ofFiles),
                Arguments.of("killsheet", ofFiles),
                Arguments.of("trade", List.of("", "file", "picture")),
                Arguments.of("boning", ofFiles),
                Arguments.of("finish", ofFiles),
                Arguments.of("frame", ofFiles),
                Arguments.of("json", ofFiles),
                Arguments.of("solver", List.of()),
                Arguments.of("picture", List.of()),
                Arguments.of("testkit", List.of("table")),
                Arguments.of("notebook", List.of("picture")),
                Arguments.of(
                        "command",
                        List.of(
                                "",
                                "file",
                                "table",
                                "killsheet",
                                "trade",
                                "boning",
                                "finish",
                                "frame",
                                "picture",
                                "solver")));
    }

    private static String named(String name) {
        return name.isEmpty() ? SHARED : SHARED + "." + name;
    }

    @ParameterizedTest
    @MethodSource("packages")
    void aPackageUsesOnlyThoseThatItMay(String name, List<String> others) {
        String[] allowed = Stream.concat(Stream.of(name), others.stream())
                .map(DataArchitectureTest::named)
                .toArray(String[]::new);
        classes()
                .that()
                .resideInAPackage(named(name))
                .should()
                .onlyDependOnClassesThat(
                        are(resideOutsideOfPackage(SHARED + "..").or(resideInAnyPackage(allowed))))
                .check(DATA);
    }

    @Test
    void everyClassStandsInAPackageThatHasARule() {
        classes()
                .should()
                .resideInAnyPackage(packages()
                        .map(arguments -> named((String) arguments.get()[0]))
                        .toArray(String[]::new))
                .check(DATA);
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
                .check(DATA);
    }

    private static String outermost(JavaClass type) {
        return type.getEnclosingClass()
                .map(DataArchitectureTest::outermost)
                .orElseGet(() -> type.getSimpleName().replaceAll("Text$", ""));
    }

    /** Outputs are what callers see of the files of a run; all else of the shared package stands on nothing of ours. */
    @Test
    void outputsAloneHaveWhatTheyDoInAnotherPackage() {
        noClasses()
                .that()
                .resideInAPackage(SHARED)
                .and()
                .doNotBelongToAnyOf(Outputs.class)
                .should()
                .dependOnClassesThat()
                .resideInAPackage(FILE)
                .check(DATA);
        noClasses()
                .that()
                .resideInAPackage(FILE)
                .should()
                .dependOnClassesThat()
                .belongToAnyOf(Outputs.class)
                .check(DATA);
    }

    @Test
    void nothingPublicNamesATypeThatIsNotForCallers() {
        List<String> named = new ArrayList<>();
        int looked = 0;
        for (JavaClass type : DATA) {
            if (type.getPackageName().equals(FILE) || !isOffered(type)) {
                continue;
            }
            note(
                    type.getName(),
                    Stream.of(
                                    type.getSuperclass().stream(),
                                    type.getInterfaces().stream(),
                                    bounds(type.getTypeParameters()))
                            .flatMap(types -> types),
                    named);
            for (JavaField field : type.getFields()) {
                if (isOffered(field.getModifiers())) {
                    note(field.getFullName(), Stream.of(field.getType()), named);
                    looked++;
                }
            }
            for (JavaCodeUnit unit : type.getCodeUnits()) {
                if (isOffered(unit.getModifiers())) {
                    note(
                            unit.getFullName(),
                            Stream.of(
                                            Stream.of(unit.getReturnType()),
                                            unit.getParameterTypes().stream(),
                                            unit.getExceptionTypes().stream(),
                                            bounds(unit.getTypeParameters()))
                                    .flatMap(types -> types),
                            named);
                    looked++;
                }
            }
        }
        assertThat(named).isEmpty();
        assertThat(looked).isGreaterThan(150);
    }

    private static Stream<JavaType> bounds(List<? extends JavaTypeVariable<?>> parameters) {
        return parameters.stream().flatMap(parameter -> parameter.getUpperBounds().stream());
    }

    /** Whether callers see a class: it and all that it stands in are public. */
    private static boolean isOffered(JavaClass type) {
        return isOffered(type.getModifiers())
                && type.getEnclosingClass().map(DataArchitectureTest::isOffered).orElse(true);
    }

    private static boolean isOffered(Set<JavaModifier> modifiers) {
        return (modifiers.contains(JavaModifier.PUBLIC) || modifiers.contains(JavaModifier.PROTECTED))
                && !modifiers.contains(JavaModifier.SYNTHETIC);
    }

    private static void note(String where, Stream<? extends JavaType> types, List<String> named) {
        types.flatMap(type -> type.getAllInvolvedRawTypes().stream())
                .filter(type -> type.getPackageName().equals(FILE))
                .forEach(type -> named.add(where + " names " + type.getSimpleName()));
    }

    @Test
    void onlyNotebooksKnowAKernel() {
        noClasses()
                .that()
                .resideOutsideOfPackage(NOTEBOOK)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.dflib..", NOTEBOOK)
                .check(DATA);
    }

    /** It is optional. */
    @Test
    void onlyTheSolverKnowsOjAlgo() {
        noClasses()
                .that()
                .resideOutsideOfPackage(named("solver"))
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.ojalgo..")
                .check(DATA);
    }

    /** Pictures are text: no display, no font, and nothing but the base module of a JDK. */
    @Test
    void nothingPaintsOrNeedsAFont() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.awt..", "javax.swing..", "javax.imageio..", "javax.print..")
                .check(DATA);
    }

    @Test
    void picturesNeedNoLibrary() {
        classes()
                .that()
                .resideInAPackage(PICTURE)
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage(
                        "java.lang..",
                        "java.math..",
                        "java.time..",
                        "java.util..",
                        "java.security..",
                        "java.nio.charset..",
                        "org.jspecify..",
                        "org.beefyield..")
                .check(DATA);
    }

    @Test
    void picturesAreOfResultsAndReadNoFile() {
        classes()
                .that()
                .resideInAPackage(PICTURE)
                .should()
                .onlyDependOnClassesThat()
                .resideOutsideOfPackages("tools.jackson..", "java.nio.file..")
                .check(DATA);
    }

    @Test
    void nothingElseDependsOnPicturesButWhatShowsThem() {
        noClasses()
                .that()
                .resideOutsideOfPackages(PICTURE, NOTEBOOK, COMMAND, "org.beefyield.data.trade..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage(PICTURE)
                .check(DATA);
    }
}
