#include "kinetics/terms.h"

#include "kinetics/terms_of.h"

namespace barm::kinetics {

template DoughTerms<double> dough_terms(const DoughOf<double>&,
                                        const Parameters<double>&,
                                        double,
                                        const Vessel&);
template Terms<double> terms_at(double,
                                const DoughTerms<double>&,
                                const DoughOf<double>&,
                                const Parameters<double>&);
template Terms<double> terms(
    const DoughOf<double>&, const Parameters<double>&, double, double, const Vessel&);
template Present present(const DoughOf<double>&);

}  // namespace barm::kinetics
