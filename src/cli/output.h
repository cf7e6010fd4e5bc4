#pragma once
// What a command puts out, and what becomes of the exit status when that cannot be written.
#include <functional>
#include <nlohmann/json.hpp>
#include <string_view>

namespace barm::cli {

/// To standard output, as it is.
void put_out(std::string_view text);

/// A JSON value; a byte in it that is no UTF-8 becomes �.
template <class Json>
void put_out_json(const Json& json) {
  put_out(json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
}

/// To standard error, as it is.
void put_beside(std::string_view text);

/// Says how far the work has come on standard error, where it is a terminal; else says nothing.
[[nodiscard]] std::function<void(double)> said_on_terminal();

/// Opens the standard streams that whoever started the program had closed: the next file opened
/// would take a closed one's place and get what is meant for the terminal.
void open_missing_streams();

/// The status a command ends with once all is written: its own, or that of the output's trouble.
[[nodiscard]] int after_writing(int status);

}  // namespace barm::cli
