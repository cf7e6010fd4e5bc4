// A key pressed in a recipe until its answer is there, in a house whose culture has been read in
// fifty bakes: five devices, each with a bake of its own that changes with every key, 200 draws, a
// quarter of a second between answer and next key.
//
//     culture_bench [SECONDS] [THINK_MS]
#include <filesystem>
#include <nlohmann/json.hpp>

#include "bench/asking.h"
#include "server/server.h"
#include "time/instant.h"

namespace {

using nlohmann::json;

constexpr int devices = 5;
constexpr int bakes = 50;

/// Whoever fills the daybook.
class Filling {
 public:
  explicit Filling(int port) : client_("127.0.0.1", port) { client_.set_read_timeout(300); }

  json post(const std::string& path, const json& body) {
    const auto reply = client_.Post(path, body.dump(), "application/json");
    if (!reply || reply->status >= 300) {
      fmt::print(stderr, "{}: {}\n", path, reply ? reply->body : "no answer");
      std::exit(1);
    }
    return json::parse(reply->body);
  }

  std::string culture() {
    return post("/api/cultures",
                {{"title", "Sluice"},
                 {"starter", "stiff ripe levain"},
                 {"flour", "white bread flour"}})
        .at("id");
  }

  // Read five times, each a little otherwise.
  void read_bake(const std::string& culture, const std::string& toml, int number) {
    const std::int64_t mixed = 1'790'000'000 + number * barm::time::seconds_a_day;
    const auto moment = [&](int hours) { return barm::time::Instant{mixed + 3600 * hours}.text(); };
    const std::string bake =
        post("/api/bakes",
             {{"state", "finished"}, {"mixed_at", moment(0)}, {"culture", culture}, {"toml", toml}})
            .at("id");
    const int heights[] = {50, 52 + number % 3, 60 + number % 5, 75 + number % 7, 82 + number % 4};
    for (int look = 0; look < 5; ++look) {
      post("/api/readings",
           {{"bake", bake}, {"at", moment(2 * look)}, {"height_mm", heights[look]}});
    }
  }

 private:
  httplib::Client client_;
};

}  // namespace

int main(int argc, char** argv) {
  barm::bench::Load load;
  if (argc > 1) load.seconds = std::max(1.0, std::atof(argv[1]));
  load.think = std::chrono::milliseconds(argc > 2 ? std::atoi(argv[2]) : 250);
  const auto folder = std::filesystem::temp_directory_path() / "barm-culture-bench";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directory(folder);
  auto opened = barm::server::Server::open({.daybook = (folder / "bench.barm").string()});
  if (!opened) {
    fmt::print(stderr, "{}\n", opened.error().text());
    return 1;
  }
  barm::server::Server& server = **opened;
  std::thread serving([&] { server.run(); });

  Filling filling(server.port());
  const std::string culture = filling.culture();
  const std::string toml = barm::bench::file_text(BARM_ROOT "/examples/plain-loaf.toml");
  for (int i = 0; i < bakes; ++i) filling.read_bake(culture, toml, i);
  std::vector<std::string> own;
  for (int i = 0; i < devices; ++i) {
    own.push_back(
        filling.post("/api/bakes", {{"state", "planned"}, {"culture", culture}, {"toml", toml}})
            .at("id"));
  }
  filling.post("/api/culture", {{"culture_id", culture}});  // learned from, as it is by then

  // A key: a minute more or less of mixing, a percent of water.
  std::atomic<int> key = 0;
  const auto press = [&](httplib::Client& client) {
    const int pressed = ++key;
    std::string form = toml;
    const std::string water = "water = \"70 %\"";
    form.replace(form.find(water),
                 water.size(),
                 fmt::format("water = \"{:.2f} %\"", 65 + 0.01 * (pressed % 1000)));
    const json body = {{"bake", form},
                       {"bake_id", own[static_cast<std::size_t>(pressed % devices)]},
                       {"draws", 200}};
    const auto reply = client.Post("/api/foresee", body.dump(), "application/json");
    return reply && reply->status == 200;
  };
  fmt::print("{} devices, a culture of {} bakes, {} cores\n",
             devices,
             bakes,
             std::thread::hardware_concurrency());
  barm::bench::say(fmt::format("200 draws at every key, {} ms between", load.think.count()),
                   barm::bench::ask_with_all(devices, server.port(), load, press),
                   load.seconds);
  server.stop();
  serving.join();
  std::filesystem::remove_all(folder);
}
