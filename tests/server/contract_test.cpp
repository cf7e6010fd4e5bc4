// docs/openapi.json against the running server: every operation is asked, every answer held against
// its schema, and a route that the contract does not know is refused.
#include <gmock/gmock.h>

#include <map>
#include <optional>
#include <set>

#include "server/json_schema.h"
#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;
using testing::IsEmpty;

const json& contract() {
  static const json document = json::parse(file_text(BARM_ROOT "/docs/openapi.json"));
  return document;
}

struct Call {
  std::string path;  ///< with its parts and query filled in
  json body;
};

const std::string mead = example("mead-loaf");
const std::string prices = file_text(BARM_ROOT "/examples/marsh-prices.toml");

/// A small test bake with readings enough to be asked about.
json test_bake() {
  return {{"bake", mead},
          {"test_bake",
           {{"name", "What slows it?"},
            {"causes", {"alcohol"}},
            {"within", "14 h"},
            {"dough", {{{"name", "mead"}}, {{"name", "water"}, {"make", {"plain"}}}}}}},
          {"readings",
           "dough,hours,height_mm\nmead,0,60\nmead,4,66\nmead,8,100\nmead,12,140\n"
           "water,0,60\nwater,4,80\nwater,6,120\nwater,8,150\n"}};
}

json next_bake() {
  json out = test_bake();
  out["candidates"] = {"plain", "plain, match alcohol"};
  return out;
}

json shown_bake() {
  json out = test_bake();
  out["with"] = {"prices"};
  return out;
}

/// A day with one bake of the daybook, which has time enough.
std::string a_day(const std::string& bake) {
  return "name = \"Saturday\"\nbegins = 2026-11-28T12:00:00\nbread = 2026-11-29T18:00:00\n"
         "[house]\nhands = 2\nfridge = 12\n[[bake]]\nfile = \"" +
         bake + "\"\nloaves = 6\nor = [{ fridge = \"8 h to 16 h\" }]\n";
}

/// What each operation is asked that the contract gives an example of.
std::map<std::string, Call> examples_of_contract() {
  std::map<std::string, Call> all;
  const json::json_pointer example("/post/requestBody/content/application~1json/example");
  for (const auto& [path, operations] : contract().at("paths").items()) {
    if (operations.contains(example)) all["post " + path] = {path, operations.at(example)};
  }
  return all;
}

/// What each operation is asked in the test, by "post /api/bowl": what the contract has as its
/// example, and these, whose bake is too long for one.
const std::map<std::string, Call>& calls() {
  static const std::map<std::string, Call> all = [] {
    std::map<std::string, Call> them = examples_of_contract();
    them.merge(std::map<std::string, Call>{
        {"post /api/bake", {"/api/bake", {{"bake", mead}}}},
        {"post /api/bowl", {"/api/bowl", {{"bake", mead}, {"weighed_g", {{"dry mead", 1300}}}}}},
        {"post /api/mend", {"/api/mend", {{"bake", mead}, {"weighed_g", {{"dry mead", 1300}}}}}},
        {"post /api/foresee",
         {"/api/foresee", {{"bake", mead}, {"draws", 20}, {"temperature_C", 26}, {"seed", 7}}}},
        {"post /api/reach",
         {"/api/reach", {{"bake", mead}, {"drink", "dry mead"}, {"draws", 20}, {"within_h", 14}}}},
        {"post /api/match", {"/api/match", {{"bake", example("perry-loaf")}, {"like", mead}}}},
        {"post /api/solve",
         {"/api/solve",
          {{"bake", mead}, {"aims", {"real water=70 %"}}, {"free", {"water", "dry mead"}}}}},
        {"post /api/swap",
         {"/api/swap",
          {{"bake", example("plain-loaf")}, {"drink", "dry mead"}, {"share_of_liquid", 0.5}}}},
        {"post /api/levain", {"/api/levain", {{"need_g", 300}, {"peak_in_h", 8}, {"draws", 20}}}},
        {"post /api/read",
         {"/api/read",
          {{"bake", mead}, {"readings", {"0h 40 mm", "4h 48 mm 24 C"}}, {"draws", 40}}}},
        {"post /api/culture", {"/api/culture", {{"culture_id", "c1"}}}},
        {"post /api/rescue",
         {"/api/rescue",
          {{"bake", mead}, {"now", "4h"}, {"by", "16h"}, {"risen", 1.1}, {"draws", 40}}}},
        {"post /api/map", {"/api/map", {{"bake", mead}, {"up", "starter"}, {"draws", 20}}}},
        {"post /api/comes-through",
         {"/api/comes-through",
          {{"bake", mead}, {"draws", 40}, {"loss_of_dough", 0.14}, {"tasted", {"9 of 12 right"}}}}},
        {"post /api/more-taste",
         {"/api/more-taste", {{"bake", mead}, {"draws", 40}, {"money", 0.3}}}},
        {"post /api/taste-across", {"/api/taste-across", {{"bake", mead}, {"draws", 20}}}},
        {"post /api/day", {"/api/day", {{"day", a_day("b2")}, {"draws", 50}, {"fresh", 50}}}},
        {"post /api/day-again",
         {"/api/day-again",
          {{"day", a_day("b2")},
           {"from", {{{"bake", "b2"}, {"way", "none"}, {"begins", {"2026-11-28T12:00:00Z"}}}}},
           {"made_from", "something else"}}}},
        {"post /api/day-calendar",
         {"/api/day-calendar", {{"day", a_day("b2")}, {"draws", 50}, {"fresh", 50}}}},
        {"post /api/till", {"/api/till", {{"bake", mead}, {"prices", prices}, {"margin", "30 %"}}}},
        {"post /api/when",
         {"/api/when", {{"bake", mead}, {"oven", "2099-11-29T08:30"}, {"draws", 20}}}},
        {"post /api/jar",
         {"/api/jar", {{"bake", mead}, {"diameter_mm", 70}, {"height_mm", 140}, {"draws", 20}}}},
        {"post /api/simmer", {"/api/simmer", {{"drink", "red wine"}, {"to", "60 %"}}}},
        {"post /api/mix",
         {"/api/mix", {{"bake", mead}, {"dough_C", 24}, {"readings", {"2min 21C", "8min 24C"}}}}},
        {"post /api/fridge", {"/api/fridge", {{"bake", mead}, {"pieces", 4}}}},
        {"post /api/oven",
         {"/api/oven", {{"bake", mead}, {"set_C", 230}, {"bake_min", 40}, {"draws", 40}}}},
        {"post /api/label", {"/api/label", {{"bake", mead}, {"rules", "uk"}, {"draws", 20}}}},
        {"post /api/prices", {"/api/prices", {{"prices", prices}}}},
        {"get /api/prices/example", {"/api/prices/example", {}}},
        {"get /api/bakes/{id}/label.html", {"/api/bakes/b1/label.html?rules=us&width=50mm", {}}},
        {"get /api/bakes/{id}/prices.html", {"/api/bakes/b1/prices.html", {}}},
        {"get /api/bakes/{id}/till.csv", {"/api/bakes/b1/till.csv", {}}},
        {"post /api/testbake-plan", {"/api/testbake-plan", test_bake()}},
        {"post /api/testbake-before", {"/api/testbake-before", test_bake()}},
        {"post /api/testbake-after", {"/api/testbake-after", test_bake()}},
        {"post /api/testbake-next", {"/api/testbake-next", next_bake()}},
        {"post /api/testbake-show", {"/api/testbake-show", shown_bake()}},
        {"get /api/larder", {"/api/larder?words=mead", {}}},
        {"get /api/larder/{key}", {"/api/larder/dry_mead", {}}},
        {"get /api/sources", {"/api/sources?words=ethanol_half", {}}},
        {"get /api/examples", {"/api/examples", {}}},
        {"post /api/calendar",
         {"/api/calendar", {{"bake", mead}, {"draws", 20}, {"alarm_min", 10}}}},
        {"post /api/jobs",
         {"/api/jobs", {{"ask", "foresee"}, {"with", {{"bake", mead}, {"draws", 20}}}}}},
        {"get /api/jobs/{job}", {"/api/jobs/JOB", {}}},
        {"delete /api/jobs/{job}", {"/api/jobs/JOB", {}}},
        {"get /api/status", {"/api/status", {}}},
        {"get /api/openapi.json", {"/api/openapi.json", {}}},
        {"get /api/changes", {"/api/changes?since=0", {}}},
        {"get /api/today", {"/api/today", {}}},
        {"get /api/trash", {"/api/trash", {}}},
        {"get /api/bakes/{id}/versions", {"/api/bakes/b1/versions", {}}},
        {"get /api/bakes/{id}/calendar.ics", {"/api/bakes/b1/calendar.ics?alarm_min=5", {}}},
        {"get /api/photos/{id}/picture", {"/api/photos/p1/picture", {}}},
        {"get /api/photos/{id}/thumbnail", {"/api/photos/p1/thumbnail", {}}},
    });
    return them;
  }();
  return all;
}

/// A record of each kind, by what a list of them is called; the daybook of the test holds them.
const std::vector<std::pair<std::string, json>>& records() {
  static const std::vector<std::pair<std::string, json>> all{
      {"bakes", {{"id", "b1"}, {"state", "live"}, {"toml", mead}, {"tags", {"mead"}}}},
      {"cultures",
       {{"id", "c1"},
        {"title", "Old jar"},
        {"starter", "stiff ripe levain"},
        {"flour", "white bread flour"}}},
      {"feedings",
       {{"id", "f1"},
        {"culture", "c1"},
        {"at", "2026-11-24T20:00:00Z"},
        {"ripe_g", 20},
        {"flour_g", 40},
        {"water_g", 20},
        {"flour", "white bread flour"}}},
      {"bottles",
       {{"id", "o1"}, {"title", "Dry mead"}, {"ingredient", "dry mead"}, {"size_mL", 750}}},
      {"readings",
       {{"id", "r1"}, {"bake", "b1"}, {"at", "2026-02-28T09:00:00Z"}, {"height_mm", 84}}},
      {"marks",
       {{"id", "m1"},
        {"bake", "b1"},
        {"what", "bulk"},
        {"stage", 1},
        {"at", "2026-11-28T09:00:00Z"}}},
      {"loaves",
       {{"id", "l1"},
        {"bake", "b1"},
        {"baked_at", "2026-11-28T20:00:00Z"},
        {"scores", {{"crumb", 4}}}}},
      {"scales", {{"id", "s1"}, {"title", "crumb"}, {"low", 1}, {"high", 5}}},
      {"remarks",
       {{"id", "k1"}, {"bake", "b1"}, {"at", "2026-11-28T09:00:00Z"}, {"text", "smells of hay"}}},
      {"settings", {{"id", "price-file"}, {"value", prices}}},
      {"test-bakes", {{"id", "t1"}, {"title", "Half or all"}}},
      {"test-members", {{"id", "n1"}, {"test_bake", "t1"}, {"bake", "b1"}, {"label", "A"}}},
      {"equipment", {{"id", "e1"}, {"title", "Deck oven"}, {"toml", "holds = 6\n"}}},
      {"photos", {{"id", "p1"}, {"caption", "the crumb"}}},
  };
  return all;
}

std::string id_of(const json& record) { return record.at("id").get<std::string>(); }

/// What an operation on a kind of record is asked; nothing when it is none.
std::optional<Call> record_call(const std::string& name) {
  for (const auto& [many, record] : records()) {
    const std::string all = "/api/" + many;
    const std::string one = all + "/" + id_of(record);
    if (name == "get " + all) return Call{all + "?limit=5", {}};
    if (name == "post " + all) {
      json fresh = record;
      fresh["id"] = "new-" + id_of(record);
      if (fresh.contains("title")) fresh["title"] = "Another " + fresh["title"].get<std::string>();
      return Call{all, fresh};
    }
    if (name == "get " + all + "/{id}") return Call{one, {}};
    if (name == "put " + all + "/{id}") return Call{one, {{"revision", 1}}};
    if (name == "delete " + all + "/{id}") return Call{one, {}};
    if (name == "post " + all + "/{id}/undo") return Call{one + "/undo", {}};
  }
  return std::nullopt;
}

std::optional<Call> call_of(const std::string& name) {
  const auto found = calls().find(name);
  return found == calls().end() ? record_call(name) : std::optional(found->second);
}

/// Operations with a test of their own, and where.
const std::set<std::string>& asked_elsewhere() {
  static const std::set<std::string> all{
      "get /api/events",   // events_test.cpp: a stream has no end
      "post /api/pair",    // pairing_test.cpp: another server
      "get /api/pair",     // the same
      "delete /api/pair",  // the same
      "post /api/photos",  // daybook_test.cpp, and below, where each test begins
      "post /api/demo",    // below, in a daybook without bakes
      "delete /api/demo",  // the same
  };
  return all;
}

std::string media_type(const std::string& header) { return header.substr(0, header.find(';')); }

class Contract : public testing::Test {
 protected:
  void SetUp() override {
    for (const auto& [many, record] : records()) {
      if (many == "photos") continue;
      const auto reply = ask("post", {"/api/" + many, record});
      ASSERT_TRUE(reply) << many;
      ASSERT_EQ(reply->status, 201) << many << reply->body;
    }
    const json to_come = {{"id", "b2"}, {"state", "planned"}, {"toml", mead}};
    ASSERT_EQ(ask("post", {"/api/bakes", to_come})->status, 201);
    const auto photo = running_.client()->Post("/api/photos?id=p1&bake=b1&caption=crumb",
                                               file_text(BARM_TEST_DATA "/server/photo.png"),
                                               "image/png");
    ASSERT_EQ(photo->status, 201) << photo->body;
    hold("post /api/photos", contract().at("paths").at("/api/photos").at("post"), *photo);
  }

  httplib::Result ask(const std::string& method, const Call& call) {
    std::string path = call.path;
    if (const auto at = path.find("JOB"); at != std::string::npos) path.replace(at, 3, a_job());
    const std::string body = call.body.dump();
    const auto client = running_.client();
    if (method == "get") return client->Get(path);
    if (method == "delete") return client->Delete(path);
    if (method == "put") return client->Put(path, body, "application/json");
    return client->Post(path, body, "application/json");
  }

  std::string a_job() {
    const auto reply = ask("post", calls().at("post /api/jobs"));
    return json::parse(reply->body).at("id");
  }

  void hold(const std::string& name, const json& operation, const httplib::Response& reply) {
    const json& responses = operation.at("responses");
    const std::string status = std::to_string(reply.status);
    ASSERT_TRUE(responses.contains(status)) << name << " answered " << status << ": " << reply.body;
    const json& response = schema_.resolved(responses.at(status));
    if (!response.contains("content")) {
      EXPECT_EQ(reply.body, "") << name;
      return;
    }
    const std::string type = media_type(reply.get_header_value("Content-Type"));
    ASSERT_TRUE(response.at("content").contains(type)) << name << " came as " << type;
    if (type != "application/json") return;
    EXPECT_THAT(
        schema_.faults(response.at("content").at(type).at("schema"), json::parse(reply.body)),
        IsEmpty())
        << name << "\n"
        << reply.body.substr(0, 2000);
  }

  void hold_operation(const std::string& method, const std::string& path, const json& operation) {
    const std::string name = method + " " + path;
    if (asked_elsewhere().contains(name)) return;
    const auto call = call_of(name);
    if (!call) {
      ADD_FAILURE() << name << " is in the contract, but no test asks it";
      return;
    }
    if (operation.contains("requestBody")) {
      const json& body =
          operation.at("requestBody").at("content").at("application/json").at("schema");
      json sent = call->body;
      // A change sends only what is new; the contract's required fields are for new records.
      if (method != "put") {
        EXPECT_THAT(schema_.faults(body, sent), IsEmpty()) << name;
      }
    }
    const auto reply = ask(method, *call);
    ASSERT_TRUE(reply) << name;
    hold(name, operation, *reply);
  }

  Folder folder_;
  Running running_{{.daybook = folder_ / "daybook.barm"}};
  JsonSchema schema_{contract()};
};

TEST_F(Contract, HasEveryRouteOfTheServer) {
  for (const server::Route& route : running_.server().router().routes()) {
    std::string method = route.method;
    std::transform(method.begin(), method.end(), method.begin(), [](unsigned char c) {
      return std::tolower(c);
    });
    ASSERT_TRUE(contract().at("paths").contains(route.path))
        << route.path << " is not in the contract";
    EXPECT_TRUE(contract().at("paths").at(route.path).contains(method))
        << method << " " << route.path;
  }
}

TEST_F(Contract, IsKeptByEveryOperation) {
  // What is deleted is asked last, and then taken back.
  for (const bool last : {false, true}) {
    for (const auto& [path, operations] : contract().at("paths").items()) {
      for (const auto& [method, operation] : operations.items()) {
        const bool ends = method == "delete" || path.ends_with("/undo");
        if (ends == last) hold_operation(method, path, operation);
      }
    }
  }
}

TEST_F(Contract, RefusesFieldsThatItDoesNotName) {
  for (const auto& [name, call] : calls()) {
    if (!call.body.is_object()) continue;
    json body = call.body;
    body["colour"] = "blue";
    const auto reply = ask(name.substr(0, name.find(' ')), {call.path, body});
    ASSERT_TRUE(reply) << name;
    EXPECT_EQ(reply->status, 400) << name << reply->body;
    const json problem = json::parse(reply->body);
    EXPECT_EQ(problem.at("field"), "/colour") << name;
    EXPECT_THAT(schema_.faults(contract().at("components").at("schemas").at("Problem"), problem),
                IsEmpty())
        << name;
  }
}

TEST(ContractOfAnEmptyDaybook, HoldsAnInventedBakeryThatCanBeThrownAway) {
  const Folder folder;
  const Running running{{.daybook = folder / "daybook.barm"}};
  const JsonSchema schema(contract());
  const auto client = running.client();
  const auto bakes = [&] {
    return json::parse(client->Get("/api/bakes")->body).at("total").get<int>();
  };
  const json& answer = contract().at("components").at("schemas").at("DemoAnswer");
  // Twice: what was thrown away can be looked at again.
  for (int round = 0; round < 2; ++round) {
    const auto saved = client->Post("/api/demo");
    ASSERT_EQ(saved->status, 200) << saved->body;
    EXPECT_THAT(schema.faults(answer, json::parse(saved->body)), IsEmpty());
    EXPECT_GE(bakes(), 8);
    EXPECT_TRUE(json::parse(client->Get("/api/today")->body).at("invented").get<bool>());
    EXPECT_EQ(client->Post("/api/demo")->status, 400) << "not over bakes that are there";
    const auto removed = client->Delete("/api/demo");
    ASSERT_EQ(removed->status, 200) << removed->body;
    EXPECT_THAT(schema.faults(answer, json::parse(removed->body)), IsEmpty());
    EXPECT_EQ(bakes(), 0);
    EXPECT_FALSE(json::parse(client->Get("/api/today")->body).at("invented").get<bool>());
  }
}

TEST_F(Contract, KnowsItsOwnMistakes) {
  const json answer = {{"schema", "barm.water/1"}, {"water_C", "warm"}, {"colour", "blue"}};
  const auto faults =
      schema_.faults(contract().at("components").at("schemas").at("WaterAnswer"), answer);
  EXPECT_THAT(faults, testing::SizeIs(3));  // a text for a number, ice_g left out, colour unknown
}

TEST_F(Contract, RefusesWhatItDoesNotDescribe) {
  const auto client = running_.client();
  EXPECT_EQ(client->Get("/api/everything")->status, 404);
  EXPECT_EQ(client->Get("/api")->status, 404);
  const auto wrong = client->Get("/api/bowl");
  EXPECT_EQ(wrong->status, 405);
  EXPECT_EQ(wrong->get_header_value("Allow"), "POST");
  EXPECT_EQ(client->Post("/api/bowl", "{}", "text/plain")->status, 415);
}

}  // namespace
}  // namespace barm::test
