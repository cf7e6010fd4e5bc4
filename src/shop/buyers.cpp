#include "shop/buyers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/csv.h"
#include "formula/document.h"
#include "generated/constants.h"
#include "numerics/random.h"

namespace barm::shop {

namespace {

std::string bare(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c != ' ' && c != '_' && c != '\r') {
      out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
  }
  return out;
}

std::string at_line(const std::string& file, int line) { return fmt::format("{}:{}", file, line); }

tl::unexpected<Error> wrong(const std::string& file, int line, std::string message) {
  return failure(ErrorCode::bad_input, at_line(file, line), std::move(message));
}

struct Columns {
  std::size_t buyer = 0, price = 0, answer = 0;
};

Result<Columns> columns_of(const csv::Row& head, const std::string& file) {
  Columns columns;
  const auto find =
      [&](std::initializer_list<std::string_view> names) -> std::optional<std::size_t> {
    for (std::size_t i = 0; i < head.size(); ++i) {
      if (std::find(names.begin(), names.end(), bare(head[i].text)) != names.end()) return i;
    }
    return std::nullopt;
  };
  const auto buyer = find({"buyer", "person", "who"});
  const auto price = find({"price"});
  const auto answer = find({"wouldbuy", "answer", "buys"});
  if (!buyer || !price || !answer) {
    return wrong(
        file, head.front().line, "the first line names the columns: buyer,price,would buy");
  }
  columns.buyer = *buyer;
  columns.price = *price;
  columns.answer = *answer;
  return columns;
}

Result<bool> yes_or_no(const std::string& cell) {
  const std::string word = bare(cell);
  if (word == "yes" || word == "y" || word == "1" || word == "true") return true;
  if (word == "no" || word == "n" || word == "0" || word == "false") return false;
  return failure(ErrorCode::bad_input, "", fmt::format("\"{:.20}\" is neither yes nor no", cell));
}

Result<Cash> price_of(const std::string& cell, const Currency& currency) {
  const bool bare = cell.find_first_not_of("0123456789.,-+ \r") == std::string::npos;
  const auto written = parse_cash(bare ? cell + " " + currency.code : cell);
  if (!written) return failure(written);
  if (!(written->currency == currency)) {
    return failure(
        ErrorCode::bad_input,
        "",
        fmt::format("{} beside the price file's {}", written->currency.code, currency.code));
  }
  if (written->cash < Cash()) return failure(ErrorCode::bad_input, "", "a price is not negative");
  return written->cash;
}

Result<Answer> answer_of(const csv::Row& row,
                         const Columns& columns,
                         const std::string& file,
                         const Currency& currency) {
  const std::size_t last = std::max({columns.buyer, columns.price, columns.answer});
  if (row.size() <= last) {
    return wrong(file, row.front().line, "has too few columns: buyer,price,would buy");
  }
  Answer answer;
  answer.buyer = row[columns.buyer].text;
  if (bare(answer.buyer).empty()) return wrong(file, row.front().line, "names no buyer");
  const auto price = price_of(row[columns.price].text, currency);
  if (!price) return wrong(file, row.front().line, price.error().message);
  const auto yes = yes_or_no(row[columns.answer].text);
  if (!yes) return wrong(file, row.front().line, yes.error().message);
  answer.price = *price;
  answer.would_buy = *yes;
  return answer;
}

// --- shares ---

/// Wilson's interval for yes of asked.
void fill_interval(Share& share) {
  constexpr double four_of_five = 0.9;  // the upper end of the middle four fifths
  const double z = numerics::normal_quantile(four_of_five);
  const double n = share.asked;
  const double p = share.share;
  const double middle = p + z * z / (2 * n);
  const double half = z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  const double whole = 1 + z * z / n;
  share.low = std::max(0.0, (middle - half) / whole);
  share.high = std::min(1.0, (middle + half) / whole);
}

/// Least squares among shares that do not rise with the price: neighbours that do are pooled.
std::vector<double> falling(const std::vector<int>& asked, const std::vector<int>& yes) {
  struct Pool {
    double asked, yes;
    std::size_t count;
  };

  std::vector<Pool> pools;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    pools.push_back({static_cast<double>(asked[i]), static_cast<double>(yes[i]), 1});
    const auto rises = [&] {
      const Pool& last = pools.back();
      const Pool& before = pools[pools.size() - 2];
      return last.yes * before.asked > before.yes * last.asked;
    };
    while (pools.size() > 1 && rises()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back() = {pools.back().asked + last.asked,
                      pools.back().yes + last.yes,
                      pools.back().count + last.count};
    }
  }
  std::vector<double> out;
  for (const Pool& pool : pools) {
    out.insert(out.end(), pool.count, pool.asked > 0 ? pool.yes / pool.asked : 0);
  }
  return out;
}

/// Answers as counts: one row a person, one column a price.
struct Grid {
  std::vector<Cash> prices;
  std::vector<std::vector<std::pair<std::size_t, bool>>> people;
};

Grid grid_of(const std::vector<Answer>& answers) {
  std::set<Cash> prices;
  std::map<std::string, std::vector<const Answer*>> by_person;
  for (const Answer& answer : answers) {
    prices.insert(answer.price);
    by_person[answer.buyer].push_back(&answer);
  }
  Grid grid;
  grid.prices.assign(prices.begin(), prices.end());
  for (const auto& [person, given] : by_person) {
    auto& row = grid.people.emplace_back();
    for (const Answer* answer : given) {
      const auto at = std::lower_bound(grid.prices.begin(), grid.prices.end(), answer->price);
      row.emplace_back(static_cast<std::size_t>(at - grid.prices.begin()), answer->would_buy);
    }
  }
  return grid;
}

struct Counts {
  std::vector<int> asked, yes;
};

Counts counts_of(const Grid& grid, const std::vector<std::size_t>& people) {
  Counts counts{std::vector<int>(grid.prices.size(), 0), std::vector<int>(grid.prices.size(), 0)};
  for (const std::size_t person : people) {
    for (const auto& [price, yes] : grid.people[person]) {
      ++counts.asked[price];
      counts.yes[price] += yes ? 1 : 0;
    }
  }
  return counts;
}

/// Profit for each price from a hundred people, in billionths of a cent; the higher of equal ones.
std::size_t best_price(const std::vector<double>& shares, const std::vector<double>& earned) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < shares.size(); ++i) {
    if (shares[i] * earned[i] >= shares[best] * earned[best]) best = i;
  }
  return best;
}

std::vector<std::size_t> best_of_resamplings(const Grid& grid,
                                             const std::vector<double>& earned,
                                             int draws,
                                             unsigned long long seed) {
  std::vector<std::size_t> best;
  const auto people = static_cast<double>(grid.people.size());
  for (int draw = 0; draw < draws; ++draw) {
    numerics::Random random(seed, static_cast<std::uint64_t>(draw));
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < grid.people.size(); ++i) {
      chosen.push_back(static_cast<std::size_t>(people * random.uniform()));
    }
    const Counts counts = counts_of(grid, chosen);
    best.push_back(best_price(falling(counts.asked, counts.yes), earned));
  }
  std::sort(best.begin(), best.end());
  return best;
}

std::size_t at_share(const std::vector<std::size_t>& sorted, double share) {
  const auto last = static_cast<double>(sorted.size() - 1);
  return sorted[static_cast<std::size_t>(std::lround(share * last))];
}

bool any_under(const std::vector<Share>& shares, int least) {
  return std::any_of(
      shares.begin(), shares.end(), [&](const Share& one) { return one.asked < least; });
}

std::string word_of(const Buyers& buyers) {
  namespace limits = constants::buyers;
  const int people = static_cast<int>(limits::least_people.value.si());
  const int answers = static_cast<int>(limits::least_answers.value.si());
  if (buyers.shares.size() < 2) return "only one price was asked: ask two or more";
  if (buyers.people < people) {
    return fmt::format(
        "{} people are too few to choose a price by: ask at least {}", buyers.people, people);
  }
  if (any_under(buyers.shares, answers)) {
    return fmt::format("a price has under {} answers: ask more people at it", answers);
  }
  if (buyers.best_low == 0 && buyers.best_high + 1 == buyers.shares.size()) {
    return "the answers do not tell the prices apart: ask more people";
  }
  if (buyers.at_the_edge) {
    return "the best price is at the end of those asked: ask beyond it too";
  }
  return "what people say they would buy is more than what they buy: try the price and count";
}

}  // namespace

Result<std::vector<Answer>> parse_answers(std::string_view text,
                                          const std::string& file,
                                          const Currency& currency) {
  constexpr std::size_t most_bytes = 1'000'000;
  if (text.size() > most_bytes) return failure(ErrorCode::bad_input, file, "is over 1 MB");
  if (text.find('\0') != std::string_view::npos)
    return failure(ErrorCode::bad_input, file, "has a NUL byte: not a text file");
  const csv::Table table = csv::table_of(text);
  if (table.open_quote > 0) return wrong(file, table.open_quote, "has a quote that is not closed");
  if (table.rows.empty()) return wrong(file, 1, "is empty: write buyer,price,would buy");
  const auto columns = columns_of(table.rows.front(), file);
  if (!columns) return failure(columns);
  std::vector<Answer> answers;
  std::set<std::pair<std::string, Cash>> seen;
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    const csv::Row& row = table.rows[i];
    auto answer = answer_of(row, *columns, file, currency);
    if (!answer) return failure(answer);
    if (!seen.emplace(answer->buyer, answer->price).second) {
      return wrong(file, row.front().line, "this buyer has answered this price before");
    }
    answers.push_back(*std::move(answer));
  }
  if (answers.empty()) return wrong(file, 2, "holds no answers");
  return answers;
}

Result<std::vector<Answer>> read_answers(const std::string& path, const Currency& currency) {
  const auto text = formula::read_text(path);
  if (!text) return failure(text);
  return parse_answers(*text, path, currency);
}

Buyers judge(const std::vector<Answer>& answers,
             Cash cost_of_a_loaf,
             double tax_on_bread,
             int draws,
             unsigned long long seed) {
  const Grid grid = grid_of(answers);
  Buyers out;
  out.people = static_cast<int>(grid.people.size());
  if (grid.prices.empty()) {
    out.too_few = true;
    out.word = "nobody was asked";
    return out;
  }
  std::vector<std::size_t> everyone(grid.people.size());
  for (std::size_t i = 0; i < everyone.size(); ++i) everyone[i] = i;
  const Counts counts = counts_of(grid, everyone);
  const auto shares = falling(counts.asked, counts.yes);
  std::vector<double> earned;
  for (std::size_t i = 0; i < grid.prices.size(); ++i) {
    const Cash net = grid.prices[i].times(million, million + std::llround(tax_on_bread * 1e6));
    const Cash profit = net - cost_of_a_loaf;
    earned.push_back(static_cast<double>(profit.billionths()));
    Share share;
    share.price = grid.prices[i];
    share.asked = counts.asked[i];
    share.yes = counts.yes[i];
    share.share = static_cast<double>(share.yes) / share.asked;
    fill_interval(share);
    share.falling = shares[i];
    share.profit = profit.scaled(100 * shares[i]);
    out.shares.push_back(share);
  }
  out.best = best_price(shares, earned);
  const auto best = best_of_resamplings(grid, earned, draws, seed);
  out.best_low = at_share(best, 0.1);
  out.best_high = at_share(best, 0.9);
  out.wide_low = at_share(best, 0.025);
  out.wide_high = at_share(best, 0.975);
  out.at_the_edge = out.best == 0 || out.best + 1 == out.shares.size();
  namespace limits = constants::buyers;
  out.too_few = out.people < limits::least_people.value.si() ||
                any_under(out.shares, static_cast<int>(limits::least_answers.value.si())) ||
                out.shares.size() < 2 ||
                (out.best_low == 0 && out.best_high + 1 == out.shares.size());
  out.word = word_of(out);
  return out;
}

}  // namespace barm::shop
