package org.beefyield.data.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.beefyield.carcass.Carcass;
import org.beefyield.data.InvalidDataException;
import org.beefyield.data.table.ShippedTables;
import org.beefyield.estimate.RefusedCarcassException;
import org.beefyield.estimate.YieldEstimator;
import org.beefyield.json.CarcassJson;
import org.beefyield.json.EstimateJson;
import org.beefyield.json.InvalidFormException;
import org.beefyield.json.RefusalJson;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A service that answers with estimates, as an embedding developer would write it. */
class RestServiceTest {
    private static final YieldEstimator ESTIMATOR = YieldEstimator.of(ShippedTables.boneless2026());
    private static final double PROBABILITY = 0.9;

    /** What can't be understood. */
    record Complaint(List<String> errors) {}

    /** The whole service. */
    private static void answer(HttpExchange exchange, Mapper mapper) throws IOException {
        int status;
        String body;
        try {
            CarcassJson sent = mapper.read(
                    new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8), CarcassJson.class);
            body = mapper.write(EstimateJson.of(ESTIMATOR.estimate(sent.carcass()), PROBABILITY));
            status = 200;
        } catch (RefusedCarcassException refused) {
            body = mapper.write(RefusalJson.of(refused));
            status = 422;
        } catch (InvalidFormException bad) {
            body = mapper.write(new Complaint(bad.faults().stream()
                    .map(InvalidFormException.Fault::message)
                    .toList()));
            status = 400;
        } catch (IllegalArgumentException | InvalidDataException bad) {
            body = mapper.write(new Complaint(List.of(String.valueOf(bad.getMessage()))));
            status = 400;
        }
        byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "application/json");
        exchange.sendResponseHeaders(status, bytes.length);
        try (OutputStream out = exchange.getResponseBody()) {
            out.write(bytes);
        }
    }

    @ParameterizedTest
    @EnumSource
    void aCarcassGoesInAndAnEstimateWithIntervalsOrATypedRefusalComesOut(Mapper mapper)
            throws IOException, InterruptedException {
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/estimates", exchange -> answer(exchange, mapper));
        server.start();
        try {
            URI service = URI.create("http://" + server.getAddress().getHostString() + ":"
                    + server.getAddress().getPort() + "/estimates");
            Carcass carcass =
                    new CarcassJson("UK1", "L7", null, null, null, "C", "R+", "3=", 342.5, 24, true).carcass();

            HttpResponse<String> good = post(service, mapper.write(CarcassJson.of(carcass)));
            assertThat(good.statusCode()).isEqualTo(200);
            EstimateJson estimate = mapper.read(good.body(), EstimateJson.class);
            assertThat(estimate).isEqualTo(EstimateJson.of(ESTIMATOR.estimate(carcass), PROBABILITY));
            assertThat(estimate.carcass().carcass()).isEqualTo(carcass);
            assertThat(estimate.levels().get(0).cuts()).allSatisfy(cut -> {
                assertThat(cut.kg()).isBetween(cut.lowKg(), cut.highKg());
                assertThat(cut.lowKg()).isNotNegative();
            });

            HttpResponse<String> refused = post(service, """
                    {"id": "UK2", "category": "C", "conformation": "R", "fatClass": "3", "coldWeightKg": 90}""");
            assertThat(refused.statusCode()).isEqualTo(422);
            RefusalJson refusal = mapper.read(refused.body(), RefusalJson.class);
            assertThat(refusal.carcass().id()).isEqualTo("UK2");
            assertThat(refusal.reasons()).singleElement().satisfies(reason -> {
                assertThat(reason.variable()).isEqualTo("cold_weight");
                assertThat(reason.number()).isEqualTo(90);
                assertThat(reason.low()).isEqualTo(150);
                assertThat(reason.high()).isEqualTo(600);
            });

            HttpResponse<String> lacking = post(service, "{\"category\": \"C\", \"conformation\": \"R\"}");
            assertThat(lacking.statusCode()).isEqualTo(400);
            assertThat(lacking.body()).isEqualTo("{\"errors\":[\"fatClass is missing\",\"coldWeightKg is missing\"]}");

            HttpResponse<String> wrong = post(service, """
                    {"category": "C", "conformation": "W", "fatClass": "3", "coldWeightKg": 340}""");
            assertThat(wrong.statusCode()).isEqualTo(400);
            assertThat(mapper.read(wrong.body(), Complaint.class).errors())
                    .containsExactly("conformation \"W\" is none of S E U R O P");

            assertThat(post(service, "no JSON").statusCode()).isEqualTo(400);
        } finally {
            server.stop(0);
        }
    }

    private static HttpResponse<String> post(URI service, String body) throws IOException, InterruptedException {
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(service)
                                .POST(HttpRequest.BodyPublishers.ofString(body))
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
    }
}
