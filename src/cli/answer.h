#pragma once
// How a command ends: the answer on paper or as JSON, or its error. For .cpp files of commands
// only.
#include <functional>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "base/complain.h"
#include "base/result.h"
#include "cli/output.h"
#include "cli/paper.h"
#include "service/error_json.h"
#include "service/larder/larder.h"
#include "service/larder/sources.h"

namespace barm::cli {

/// Prints and gives the exit status. Looks for to_json() in service/ and print() in cli/ by type;
/// `on_paper` says what of the answer is laid out on paper.
template <class Answer, class OnPaper>
int answer(const Result<Answer>& result, bool json, const OnPaper& on_paper) {
  using service::to_json;
  if (!result) {
    if (json) put_out_json(to_json(result.error()));
    complain(result.error().text());
    return exit_status(result.error().code);
  }
  if (json) {
    put_out_json(to_json(*result));
  } else {
    Paper paper(colour_wanted());
    print(paper, on_paper(*result));
    put_out(paper.text());
  }
  return 0;
}

template <class Answer>
int answer(const Result<Answer>& result, bool json) {
  return answer(result, json, std::identity{});
}

/// The named option's error says which option it was.
template <class T>
Result<T> of_option(const char* option, Result<T> parsed) {
  if (!parsed) return failure(parsed.error().code, option, parsed.error().message);
  return parsed;
}

/// An error at one of the question's fields says which option it was: {"by", "--by"}.
template <class T>
Result<T> in_options(Result<T> result,
                     std::initializer_list<std::pair<std::string_view, const char*>> options) {
  if (result) return result;
  for (const auto& [field, option] : options) {
    if (result.error().where == field) return of_option(option, std::move(result));
  }
  return result;
}

}  // namespace barm::cli
