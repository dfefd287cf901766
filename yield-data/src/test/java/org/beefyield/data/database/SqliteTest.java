package org.beefyield.data.database;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.util.ArrayList;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.carcass.Category;
import org.beefyield.carcass.Conformation;
import org.beefyield.carcass.FatClass;
import org.beefyield.data.killsheet.KillSheetReader;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.CutLine;
import org.beefyield.estimate.Interval;
import org.beefyield.estimate.YieldEstimate;
import org.beefyield.estimate.YieldEstimator;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The same as with H2, with what SQLite has not: no boolean, no strict types, and a file of its own. */
class SqliteTest {
    private static final Path SHEET = Path.of(System.getProperty("basedir", ""), "examples/tarrowmere-2026-11.csv");

    private final List<Carcass> carcasses = KillSheetReader.read(SHEET).carcasses();
    private final YieldEstimator estimator = YieldEstimator.of(ShippedTables.boneless2026());
    private Connection connection;

    @TempDir
    Path folder;

    /** A row of the table of estimates. */
    record Row(String carcass, String level, String cut, double kg, double share, double lowKg, double highKg) {}

    @BeforeEach
    void connect() throws SQLException {
        connection = DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("hall.db"));
        connection.setAutoCommit(false);
        try (Statement statement = connection.createStatement()) {
            statement.execute("create table carcass (id text primary key, category text not null, conformation text"
                    + " not null, fat_class text not null, cold_weight_kg real not null, age_months integer, lot text,"
                    + " supplier text, assured text, kill_date text, hall text)");
            statement.execute("create table estimate (carcass text references carcass, level text, cut text, kg real,"
                    + " share real, low_kg real, high_kg real, primary key (carcass, level, cut))");
        }
    }

    @AfterEach
    void disconnect() throws SQLException {
        connection.close();
    }

    private void insert(Carcass carcass) throws SQLException {
        try (PreparedStatement insert =
                connection.prepareStatement("insert into carcass values (?,?,?,?,?,?,?,?,?,?,?)")) {
            insert.setString(1, carcass.id().orElseThrow());
            insert.setString(2, carcass.category().letter());
            insert.setString(3, carcass.conformation().toString());
            insert.setString(4, carcass.fatClass().toString());
            insert.setDouble(5, carcass.coldWeightKg());
            insert.setObject(
                    6, carcass.ageMonths().isPresent() ? carcass.ageMonths().getAsInt() : null, Types.INTEGER);
            insert.setString(7, carcass.lot().orElse(null));
            insert.setString(8, carcass.supplier().orElse(null));
            insert.setString(9, carcass.assured().map(yes -> yes ? "yes" : "no").orElse(null));
            insert.setString(10, carcass.killDate().orElse(null));
            insert.setString(11, carcass.hall().orElse(null));
            insert.executeUpdate();
        }
    }

    private List<Carcass> selectCarcasses() throws SQLException {
        List<Carcass> read = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select * from carcass order by id")) {
            while (row.next()) {
                Carcass carcass = Carcass.of(
                                Category.parse(row.getString("category")),
                                Conformation.parse(row.getString("conformation")),
                                FatClass.parse(row.getString("fat_class")),
                                row.getDouble("cold_weight_kg"))
                        .withId(row.getString("id"));
                Integer months = (Integer) row.getObject("age_months");
                String lot = row.getString("lot");
                String supplier = row.getString("supplier");
                String assured = row.getString("assured");
                String killDate = row.getString("kill_date");
                String hall = row.getString("hall");
                carcass = months == null ? carcass : carcass.withAgeMonths(months);
                carcass = lot == null ? carcass : carcass.withLot(lot);
                carcass = supplier == null ? carcass : carcass.withSupplier(supplier);
                carcass = killDate == null ? carcass : carcass.withKillDate(killDate);
                carcass = hall == null ? carcass : carcass.withHall(hall);
                read.add(assured == null ? carcass : carcass.withAssured(assured.equals("yes")));
            }
        }
        return read;
    }

    private static List<Row> rows(YieldEstimate estimate) {
        List<Row> rows = new ArrayList<>();
        for (String level : estimate.table().levels()) {
            for (CutLine line : estimate.lines(level)) {
                Interval ninety = line.interval(0.9);
                rows.add(new Row(
                        estimate.carcass().id().orElseThrow(),
                        level,
                        line.cut().code(),
                        line.kg(),
                        line.share(),
                        ninety.low(),
                        ninety.high()));
            }
        }
        return rows;
    }

    private void insert(List<Row> rows) throws SQLException {
        try (PreparedStatement insert = connection.prepareStatement("insert into estimate values (?,?,?,?,?,?,?)")) {
            for (Row row : rows) {
                insert.setString(1, row.carcass());
                insert.setString(2, row.level());
                insert.setString(3, row.cut());
                insert.setDouble(4, row.kg());
                insert.setDouble(5, row.share());
                insert.setDouble(6, row.lowKg());
                insert.setDouble(7, row.highKg());
                insert.addBatch();
            }
            insert.executeBatch();
        }
    }

    private List<Row> selectEstimates() throws SQLException {
        List<Row> read = new ArrayList<>();
        try (Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("select * from estimate")) {
            while (row.next()) {
                read.add(new Row(
                        row.getString("carcass"),
                        row.getString("level"),
                        row.getString("cut"),
                        row.getDouble("kg"),
                        row.getDouble("share"),
                        row.getDouble("low_kg"),
                        row.getDouble("high_kg")));
            }
        }
        return read;
    }

    @Test
    void carcassesComeOutOfADatabaseAsTheyWentIn() throws SQLException {
        Carcass bare = Carcass.of(Category.COW, Conformation.parse("P"), FatClass.parse("4L"), 301.25)
                .withId("ZZ-9");
        for (Carcass carcass : carcasses) {
            insert(carcass);
        }
        insert(bare);
        List<Carcass> expected = new ArrayList<>(carcasses);
        expected.add(bare);
        assertThat(selectCarcasses())
                .containsExactlyInAnyOrderElementsOf(expected)
                .hasSize(201);
    }

    @Test
    void estimatesOfCarcassesOfADatabaseAreReadBackToTheBit() throws SQLException {
        for (Carcass carcass : carcasses) {
            insert(carcass);
        }
        for (Carcass carcass : selectCarcasses()) {
            insert(rows(estimator.estimate(carcass)));
        }
        List<Row> expected = carcasses.stream()
                .map(estimator::estimate)
                .flatMap(estimate -> rows(estimate).stream())
                .toList();
        assertThat(selectEstimates())
                .containsExactlyInAnyOrderElementsOf(expected)
                .hasSizeGreaterThan(5000);
    }
}
