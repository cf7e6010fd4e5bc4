#include "chemistry/sulphite.h"

#include <cmath>

#include "generated/constants.h"

namespace barm::chemistry {

namespace {

double undissociated(double ph, double pk) { return 1 / (1 + std::pow(10.0, ph - pk)); }

}  // namespace

double sulphite_pk(AlcoholByVolume strength, Temperature temperature) {
  namespace fit = constants::sulphite_pk;
  const TemperatureDifference warmer = temperature - Temperature::from_celsius(20);
  return fit::at_20.value + fit::by_strength.value * strength.value() +
         fit::by_warmth.value * warmer;
}

double molecular_share(Ph ph, AlcoholByVolume strength, Temperature temperature) {
  return undissociated(ph.value(), sulphite_pk(strength, temperature));
}

double undissociated_sorbic_share(Ph ph) {
  return undissociated(ph.value(), constants::sorbic_acid::pk.value.value());
}

}  // namespace barm::chemistry
