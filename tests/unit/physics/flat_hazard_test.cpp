#include "physics/flat_hazard.h"

#include <cmath>
#include <utility>
#include <vector>

#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;
using physics_test::kCaseCount;

TEST_CASE("cut factors multiply, and unknown inners make no difference") {
    CutFactors factors;
    CHECK(compute_cut_ratio(factors) == Approx(kRaceFactor));
    factors = {.8,
               2.0,
               find_wet_factor(Wetness::kWet),
               find_tyre_factor(TyreKind::kTough),
               find_wear_factor(TyreWear::kHalfWorn),
               find_inner_factor(Inner::kLatex)};
    CHECK(compute_cut_ratio(factors) == Approx(.8 * 2.0 * 1.7 * .45 * 1.3));
    for (const Inner inner :
         {Inner::kButyl, Inner::kThermoplastic, Inner::kLatex, Inner::kTubeless}) {
        CHECK(find_inner_factor(inner) == 1.0);
    }
}

TEST_CASE("wet roads, thin tyres and wear never lower the cuts") {
    CHECK(find_wet_factor(Wetness::kWet) > find_wet_factor(Wetness::kDry));
    CHECK(find_tyre_factor(TyreKind::kThin) > find_tyre_factor(TyreKind::kRace));
    CHECK(find_tyre_factor(TyreKind::kRace) > find_tyre_factor(TyreKind::kTough));
    CHECK(find_wear_factor(TyreWear::kWorn) > find_wear_factor(TyreWear::kHalfWorn));
    CHECK(find_wear_factor(TyreWear::kHalfWorn) > find_wear_factor(TyreWear::kFresh));
    CHECK(find_impact_factor(Surface::kCobbles) > find_impact_factor(Surface::kCoarse));
    CHECK(find_impact_factor(Surface::kCoarse) > find_impact_factor(Surface::kOrdinary));
}

TEST_CASE("pressure and width never raise the pinch hazard, load never lowers it") {
    Cases cases(101);
    for (int i = 0; i < kCaseCount; ++i) {
        const PinchLaw law{{},
                           cases.between(2, 12),
                           cases.between(.5, 1.5),
                           cases.between(1, 3),
                           cases.between(.5, 1.5)};
        const PinchState state{cases.between(1.5e5, 9e5), cases.between(.020, .040),
                               cases.between(200, 700), 1.0};
        const double ratio = compute_pinch_ratio(law, state);
        PinchState other = state;
        other.pressure_pa *= 1.02;
        CHECK(compute_pinch_ratio(law, other) < ratio);
        other = state;
        other.width_m *= 1.02;
        CHECK(compute_pinch_ratio(law, other) < ratio);
        other = state;
        other.load_n *= 1.02;
        CHECK(compute_pinch_ratio(law, other) > ratio);
        other = state;
        other.inner_limit_ratio = 1.3;
        CHECK(compute_pinch_ratio(law, other) < ratio);
    }
}

TEST_CASE("the pinch hazard is 1 at its reference and bounded without pressure") {
    const PinchLaw law;
    CHECK(compute_pinch_limit_ratio(law, law.reference) == 1.0);
    CHECK(compute_pinch_ratio(law, law.reference) == 1.0);
    PinchState soft = law.reference;
    soft.pressure_pa *= .9;
    CHECK(compute_pinch_ratio(law, soft) == Approx(std::exp(.6)));
    soft.pressure_pa = 1.0;
    CHECK(compute_pinch_ratio(law, soft) <= std::exp(law.steepness));
}

TEST_CASE("50 km of riding leave a fifth of the fitting faults") {
    // Common practice: latex .8 % fresh, a fifth of that after 50 km; beginners three
    // times.
    const double fresh = find_fitting_fault_chance(Inner::kLatex, Fitter::kPractised);
    CHECK(fresh == Approx(.008));
    CHECK(find_fitting_fault_chance(Inner::kLatex, Fitter::kBeginner) == Approx(.024));
    CHECK(find_fitting_fault_chance(Inner::kThermoplastic, Fitter::kPractised) ==
          Approx(.006));
    CHECK(find_fitting_fault_chance(Inner::kButyl, Fitter::kPractised) == Approx(.003));
    CHECK(compute_fitting_hazard_per_m({fresh, 50e3}) ==
          Approx(compute_fitting_hazard_per_m({fresh, 0.0}) / 5).epsilon(1e-9));
    CHECK(compute_fitting_fault_chance({fresh, 0.0}, 1e9) == Approx(fresh).epsilon(1e-9));
    CHECK(compute_fitting_fault_chance({fresh, 50e3}, 1e9) ==
          Approx(fresh / 5).epsilon(.01));
}

TEST_CASE("the fitting chance over a race is the sum of its hazard") {
    const Fitting fitting{.024, 12e3};
    double cumulative = 0.0;
    for (int metre = 0; metre < 90000; metre += 10) {
        cumulative += 10 * compute_fitting_hazard_per_m({.024, 12e3 + metre + 5});
    }
    CHECK(compute_fitting_fault_chance(fitting, 90e3) ==
          Approx(-std::expm1(-cumulative)).epsilon(1e-6));
}

TEST_CASE("surviving two stretches of road is surviving them one after the other") {
    Cases cases(102);
    for (int i = 0; i < kCaseCount; ++i) {
        const Fitting fresh{cases.between(0, .05), cases.between(0, 1e5)};
        const double a = cases.between(0, 1e5);
        const double b = cases.between(0, 1e5);
        const Fitting later{fresh.fault_chance, fresh.ridden_m + a};
        CHECK((1 - compute_fitting_fault_chance(fresh, a)) *
                  (1 - compute_fitting_fault_chance(later, b)) ==
              Approx(1 - compute_fitting_fault_chance(fresh, a + b)).epsilon(1e-12));
    }
}

TEST_CASE("old sealant holds less often") {
    CHECK(compute_sealant_hold_chance(kSealantHoldChance, 0.0) == kSealantHoldChance);
    CHECK(compute_sealant_hold_chance(.65, kSealantFadeTime) == .65);
    CHECK(compute_sealant_hold_chance(.65, kSealantFadeTime + 86400.0) ==
          Approx(.65 * .6));
}

TEST_CASE("counts of flats over 90 km at one per 1500 km are Poisson") {
    // mpmath; actuar agrees.
    const double hazard = 90.0 / 1500.0;
    const double expected[] = {.941764533584, .0565058720151, .00169517616045,
                               3.3903523209e-5};
    for (int count = 0; count < 4; ++count) {
        CHECK(compute_flat_count_chance(hazard, count) ==
              Approx(expected[count]).epsilon(1e-10));
    }
    // Two spares: the third flat ends the race.
    CHECK(compute_at_least_chance(hazard, 3) == Approx(3.44182402447e-5).epsilon(1e-10));
    CHECK(compute_no_flat_chance(hazard) == Approx(.941764533584).epsilon(1e-11));
    CHECK(compute_at_least_chance(hazard, 0) == 1.0);
    CHECK(compute_flat_count_chance(0.0, 0) == 1.0);
    CHECK(compute_flat_count_chance(0.0, 1) == 0.0);
}

TEST_CASE("a hazard that varies along the road sums to its integral") {
    // (1 + .5 sin(2 pi s/90))/1500 per km: .039549296586 at 45 km; 60 km at 1/2000 and 30
    // at 1/500 leave .913931185271 (mpmath).
    std::vector<Stretch> stretches;
    for (int i = 0; i < 4500; ++i) {
        const double km = (i + .5) * .01;
        stretches.push_back({10.0, (1 + .5 * std::sin(2 * kPi * km / 90)) / 1.5e6});
    }
    CHECK(sum_hazard(stretches) == Approx(.039549296586).epsilon(1e-6));
    CHECK(compute_no_flat_chance(sum_hazard(stretches)) ==
          Approx(.961222567832).epsilon(1e-7));
    const std::vector<Stretch> two = {{60e3, 1 / 2000e3}, {30e3, 1 / 500e3}};
    CHECK(compute_no_flat_chance(sum_hazard(two)) ==
          Approx(.913931185271).epsilon(1e-11));
}

TEST_CASE("the default share of rear flats is that of a rear rate twice the front") {
    // Front 1/4500 and rear 1/2250 per km: P(rear) 2/3.
    CHECK(kRearFlatShare ==
          Approx((1 / 2250.0) / (1 / 4500.0 + 1 / 2250.0)).margin(.005));
}

TEST_CASE("clumped counts are the predictive counts of a gamma rate") {
    // Jeffreys Gamma(1/2, 0) and 3 flats in 4000 km, 90 km ahead (exact, R): a gamma rate
    // of shape 3.5 and mean 3.5/4000. A Poisson with the mean gives .924270963305
    // instead.
    const double mean = 90.0 * 3.5 / 4000.0;
    CHECK(compute_clumped_count_chance(mean, 3.5, 0) ==
          Approx(.925078082728).epsilon(1e-10));
    CHECK(compute_clumped_count_chance(mean, 3.5, 1) ==
          Approx(.071246845002).epsilon(1e-9));
    CHECK(compute_clumped_count_chance(mean, 3.5, 2) ==
          Approx(.003527502717).epsilon(1e-8));
    CHECK(compute_no_flat_chance(mean) == Approx(.924270963305).epsilon(1e-10));
    double three_or_more = 0.0;
    for (int count = 3; count < 40; ++count) {
        three_or_more += compute_clumped_count_chance(mean, 3.5, count);
    }
    CHECK(three_or_more == Approx(1.47569552e-4).epsilon(1e-7));
    // Gamma(2, 3000 km) and 1 flat in 2500 km: (5500/5590)^3.
    CHECK(compute_clumped_count_chance(90 * 3.0 / 5500, 3.0, 0) ==
          Approx(.952472937188).epsilon(1e-11));
}

TEST_CASE("counts sum to one, and clumping fades into Poisson") {
    for (const double hazard : {.01, .3, 4.0}) {
        double plain = 0.0;
        double clumped = 0.0;
        for (int count = 0; count < 200; ++count) {
            plain += compute_flat_count_chance(hazard, count);
            clumped += compute_clumped_count_chance(hazard, 2.0, count);
        }
        CHECK(plain == Approx(1.0).epsilon(1e-12));
        CHECK(clumped == Approx(1.0).epsilon(1e-12));
        CHECK(compute_clumped_count_chance(hazard, 1e7, 1) ==
              Approx(compute_flat_count_chance(hazard, 1)).epsilon(1e-5));
    }
}

TEST_CASE("clumping by a spread is the gamma law with that logarithmic spread") {
    // trigamma(1) = pi^2/6 and trigamma(1/2) = pi^2/2 (Abramowitz & Stegun 6.4.2, 6.4.4).
    CHECK(solve_clump_shape(std::exp(kPi / std::sqrt(6.0))) == Approx(1.0).epsilon(1e-9));
    CHECK(solve_clump_shape(std::exp(kPi / std::sqrt(2.0))) == Approx(.5).epsilon(1e-9));
    CHECK(solve_clump_shape(1.3) > solve_clump_shape(1.8));
}
