#include <fmt/format.h>
#include <pthread.h>
#include <spawn.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <array>
#include <csignal>
#include <cstdlib>
#include <memory>
#include <thread>

#include "base/complain.h"
#include "base/error.h"
#include "generated/commands.h"
#include "server/door/page.h"
#include "server/door/qr.h"
#include "server/server.h"

namespace barm::cli {

namespace {

constexpr int usual_port = 8410;

struct OpenArguments {
  std::string daybook;
  int port = usual_port;
  bool lan = false;
  bool no_browser = false;
};

// Blocked in this thread and all that it starts, so that one of them can wait for them.
sigset_t block_endings() {
  sigset_t endings;
  sigemptyset(&endings);
  sigaddset(&endings, SIGINT);
  sigaddset(&endings, SIGTERM);
  sigaddset(&endings, SIGHUP);
  pthread_sigmask(SIG_BLOCK, &endings, nullptr);
  return endings;
}

bool has_a_screen() {
  return std::getenv("DISPLAY") != nullptr || std::getenv("WAYLAND_DISPLAY") != nullptr;
}

// By the desktop's own opener, without a shell; when there is none nothing happens.
void open_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string argument = address;
  std::array<char*, 3> arguments{program.data(), argument.data(), nullptr};
  posix_spawnattr_t settings;
  posix_spawnattr_init(&settings);
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_setsigmask(&settings, &none);
  posix_spawnattr_setflags(&settings, POSIX_SPAWN_SETSIGMASK);
  pid_t child = 0;
  posix_spawnp(&child, program.c_str(), nullptr, &settings, arguments.data(), environ);
  posix_spawnattr_destroy(&settings);
}

// 95 characters do not fit on a line of 80.
std::string in_two_lines(const std::string& fingerprint) {
  const std::size_t half = fingerprint.size() / 2 + 1;
  return fmt::format("    {}\n    {}\n", fingerprint.substr(0, half), fingerprint.substr(half));
}

void say_lan(const server::Server& server) {
  std::string secure;
  std::string plain;
  for (const std::string& address : server.addresses()) {
    if (address.starts_with("https:")) {
      if (secure.empty()) secure = address;
      fmt::print("  on a telephone     {}\n", address);
    } else if (plain.empty() && address.find("localhost") == std::string::npos) {
      plain = address;
    }
  }
  fmt::print("  its key            {}\n\n", server.key());
  if (secure.empty()) {
    fmt::print("  This machine is on no network now.\n\n");
    return;
  }
  fmt::print("{}\n", server::qr_code(secure + "/#pair=" + server.key()));
  fmt::print(
      "At the first visit the browser warns, for it does not know this machine's\n"
      "certificate. Go on only if the fingerprint it shows is this one:\n{}",
      in_two_lines(server.certificate()->fingerprint));
  fmt::print(
      "To be rid of the warning for good, pair the telephone, open\n"
      "{}/authority.crt on it and install that certificate. It can\n"
      "vouch for this house's names and networks only. Its own fingerprint, which\n"
      "the telephone shows before it installs it and the page among its settings:\n{}",
      secure,
      in_two_lines(server.certificate()->authority_fingerprint));
  fmt::print(
      "Without any certificate: {}, but then others in the network\n"
      "can read along, and some of the page does not work; it says what.\n\n",
      plain);
}

void say(const server::Server& server, bool lan) {
  fmt::print("Barmwright is open. Ctrl-C closes it.\n\n");
  fmt::print("  on this machine    {}\n", server.addresses().front());
  if (!server::page_is_there())
    fmt::print("  (built without the page: only the routes under /api/ are there)\n");
  if (lan) say_lan(server);
  (void)std::fflush(stdout);
}

int fail(const Error& error) {
  complain(error.text());
  return exit_status(error.code);
}

int open(const OpenArguments& arguments) {
  const sigset_t endings = block_endings();
  server::ServerOptions options;
  options.daybook = arguments.daybook;
  options.port = arguments.port;
  options.lan = arguments.lan;
  options.private_folder = (arguments.daybook.empty() ? "barm" : arguments.daybook) + ".lan";
  auto server = server::Server::open(options);
  if (!server) return fail(server.error());

  say(**server, arguments.lan);
  if (!arguments.no_browser && isatty(STDOUT_FILENO) != 0 && has_a_screen())
    open_browser((*server)->addresses().front());
  std::thread waiting([&] {
    int ending = 0;
    sigwait(&endings, &ending);
    (*server)->stop();
  });
  (*server)->run();
  waiting.join();
  fmt::print("closed\n");
  return 0;
}

}  // namespace

void add_open(CLI::App& app, std::function<int()>& chosen) {
  const auto arguments = std::make_shared<OpenArguments>();
  CLI::App* sub =
      app.add_subcommand("open", "open the page in the browser, here or on a telephone");
  sub->add_option("--daybook", arguments->daybook, "the daybook's file")->type_name("FILE");
  sub->add_option("--port", arguments->port, "the port to listen on; 0 for any that is free")
      ->check(CLI::Range(0, 65535))
      ->capture_default_str();
  sub->add_flag(
      "--lan", arguments->lan, "also for other devices in the network, which give a key once");
  sub->add_flag("--no-browser", arguments->no_browser, "do not open a browser");
  sub->footer("Example:\n  barm open --daybook bakery.barm --lan");
  sub->callback([arguments, &chosen] { chosen = [arguments] { return open(*arguments); }; });
}

}  // namespace barm::cli
