#include "kinetics/terms.h"

#include "kinetics/terms_of.h"

namespace barm::kinetics {

template Terms<double> terms(
    const DoughOf<double>&, const Parameters<double>&, double, double, const Vessel&);
template Present present(const DoughOf<double>&);

}  // namespace barm::kinetics
