// Our posterior for whoever samples it otherwise (bench/emcee_beside.py): prints the dimension,
// then for each block of points on standard input (a count and as many doubles, binary) the
// logarithms of prior times likelihood. With --ours it samples itself and prints what came of it.
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstring>

#include "estimation/learn.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "numerics/random.h"

namespace {

using namespace barm;
using namespace barm::estimation;

constexpr double hours[] = {0.6, 1.2, 1.8, 2.4, 3.0, 3.6, 4.2, 4.8, 5.4, 6.0, 6.6, 7.2};

void sample_by_ourselves(const DoughToRead& batch, const Readings& readings) {
  LearnOptions options;
  options.threads = 1;
  options.draws = 4000;
  const auto begin = std::chrono::steady_clock::now();
  const auto learned = learn(batch, readings, options);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  double mean = 0;
  for (std::size_t i = 0; i < learned->draws(); ++i)
    mean += learned->weight[i] * learned->draw(i)[0];
  std::printf("%.6f %.1f %.6f %s\n",
              took.count(),
              learned->effective,
              mean,
              std::string(name(learned->method)).c_str());
}

void serve(const DoughToRead& batch, const Readings& readings) {
  const std::size_t d = batch.dimension();
  std::uint64_t count = 0;
  while (std::fread(&count, sizeof count, 1, stdin) == 1) {
    std::vector<double> z(count * d);
    if (std::fread(z.data(), sizeof(double), z.size(), stdin) != z.size()) return;
    LearnOptions options;
    options.threads = 1;
    auto ln = log_likelihood(batch, readings, z, options);
    if (!ln) return;
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = 0; j < d; ++j) (*ln)[i] -= 0.5 * z[i * d + j] * z[i * d + j];
    }
    std::fwrite(ln->data(), sizeof(double), count, stdout);
    std::fflush(stdout);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const auto bake = formula::read_bake(BARM_EXAMPLES "/mead-loaf.toml");
  const auto batch = prepare(*bake, day_one_belief(), forecast::proving_of(*bake, {}));
  numerics::Random random(7, 3);
  const std::vector<double> z(batch->dimension(), 0.0);
  const auto readings =
      simulated(*batch, z, hours, 40.0 * millimetre, [&] { return random.normal(); });
  if (argc > 1 && std::strcmp(argv[1], "--ours") == 0) {
    sample_by_ourselves(*batch, *readings);
    return 0;
  }
  std::printf("%zu\n", batch->dimension());
  std::fflush(stdout);
  serve(*batch, *readings);
}
