#pragma once
// One dough as it stands before any reading: what is in doubt about it, and how it and the sample
// beside it are kept. docs/model/estimation.md 2.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "estimation/belief.h"
#include "estimation/readings.h"
#include "forecast/course.h"
#include "forecast/journey.h"
#include "forecast/plan.h"
#include "formula/bake.h"
#include "heat/track.h"
#include "kinetics/dough.h"

namespace barm::estimation {

/// What a bowl brings that is not known exactly, in the order of DoughToRead::own rows.
enum class Brought {
  wild_yeast,
  bacteria,
  bakers_yeast,
  lag,
  strength,
  rise_limit,
  ethanol,
  added_hexose,
  added_maltose,
  lactate,
  acetate,
  other_acids,
  buffering,
  flour_buffering,
  acidity,  ///< pH itself, not its ln
  free_sulphite,
  sorbate,
  iso_alpha_acids,
  carbon_dioxide,
};

inline constexpr std::size_t brought_count = static_cast<std::size_t>(Brought::carbon_dioxide) + 1;

/// A height that is less sure than others, by its time.
struct Doubted {
  Time at;
  double doubt = 0;  ///< [mm]
};

/// How the sample in the jar is kept, and what may be wrong with its readings. All of these are
/// guesses of ours that the readings may move.
struct Sample {
  heat::Track track = heat::Track(Temperature::from_celsius(24));  ///< its temperature
  double warmer_doubt = 0.5;                                       ///< [K] of that temperature
  double surface = 1;            ///< surface over that of a tub of the same dough
  double drag = 0.97;            ///< rise above the start in the jar over that of the dough itself
  double drag_doubt = 0.06;      ///< of it, in ln
  double height_doubt = 1.0;     ///< [mm] of one reading: ruler, dome, parallax
  double mark_doubt = 1.0;       ///< [mm] of the start mark, shared by every reading of the jar
  double lost_mark_doubt = 0.3;  ///< in ln of the start height when no row gives it
  double time_doubt = 0.05;      ///< [h] between the look and the time written down
  double noise_doubt = 0.5;      ///< in ln of how noisy all readings are together
  double tail = 4;               ///< degrees of freedom of a reading's error (Student)
  double least_doubt = 0.5;      ///< [mm] that any number of rows of a logger leaves
  double straying = 0.02;        ///< of the mark: a dough strays so far from any course, for hours
  double straying_lasts = 1;     ///< [h] to either side
  std::vector<Doubted> doubted;  ///< heights that contradict others
};

/// How far a real dough may run faster or slower than the model at a time: its rate is that of the
/// model times exp(w), w wandering about 0 and forgetting where it was.
struct Pace {
  double doubt = 0.12;  ///< sd of w
  double memory = 6;    ///< [h] after which it has forgotten all but 1/e
  double faster = 1;    ///< share of w that counts where it is above 0
  // Doughs of four kinds read for six tenths of their time (studies/doughs.cpp): ln(hours ahead
  // that came / those that our law alone foretells) was 0 where ours made them, 0.43 and 0.24 by
  // two textbook laws, 0.86 in the tubes of landis2021: they go on in a line where ours goes on
  // growing.
  double slows = 0.31;         ///< their mean, the tubes counted half
  double laws_apart = 0.32;    ///< sd between kinds, and of tests/truth/laws_apart_test.cpp
  double within_a_law = 0.25;  ///< sd within a kind
};

inline constexpr std::size_t pace_pieces =
    4;  ///< stretches of constant pace up to the last reading

/// A dough to be read. The map from unknowns z to a dough:
///     ln p = mean + factor z_p,   ln(brought/book) = by_parameter z_p + own z_o
struct DoughToRead {
  kinetics::Dough dough;                                    ///< with every number as published
  std::array<double, kinetics::parameter_count> ln_mean{};  ///< of ln(value/book) of all parameters
  std::vector<kinetics::Parameter> parameters;              ///< those that matter for this dough
  std::vector<double> factor;        ///< parameters x parameters, lower triangle, by rows
  std::vector<double> by_parameter;  ///< brought_count x parameters
  std::size_t own_count = 0;
  std::vector<double> own;         ///< brought_count x own_count
  std::optional<Time> levain_age;  ///< past its peak by published figures, where that is known
  forecast::Proving bulk;          ///< up to the end of the bulk: its target, its horizon
  forecast::Plan plan;             ///< the stages it goes through; a bulk alone when not known
  forecast::Walking like;  ///< what its weight and its makeup are, for warmth after the bulk
  Sample sample;
  Pace pace;
  std::vector<std::string> notes;  ///< what was made simpler, in words

  /// Number of unknowns: parameters, brought, mark, drag, warmer, pieces of pace. The noise of the
  /// readings is summed over and is none of them.
  [[nodiscard]] std::size_t dimension() const;

  [[nodiscard]] std::size_t first_own() const { return parameters.size(); }

  [[nodiscard]] std::size_t first_of_jar() const { return parameters.size() + own_count; }

  [[nodiscard]] std::size_t first_of_pace() const { return first_of_jar() + jar_count; }

  static constexpr std::size_t jar_count = 3;  // mark, drag, warmer
};

/// What a bake leaves in doubt: its parameters by `belief`, what its bottles and its levain bring
/// by draws from the larder and by the levain's own fermentation. The sample stands at the bulk's
/// temperature until told otherwise. The draws of the larder are always the same, so that no seed
/// changes what is believed. Errors: as forecast::draw.
[[nodiscard]] Result<DoughToRead> prepare(const formula::Bake& bake,
                                          const Belief& belief,
                                          const forecast::Proving& bulk);

/// How long past its peak the bake's levain is used, by published figures; empty where that is not
/// known. Errors: as forecast::past_peak.
[[nodiscard]] Result<std::optional<Time>> levain_age(const formula::Bake& bake);

/// The same for a dough that is known but for its parameters.
[[nodiscard]] DoughToRead prepare(const kinetics::Dough& dough,
                                  const Belief& belief,
                                  const forecast::Proving& bulk);

/// Puts logged temperatures in the place of those the bake states: the sample's, or the room's for
/// it where none of the sample is there, and the bulk's, each in as few steps as a dough feels
/// (heat/felt.h), with a note of how far that is off. After the last of them each stays as it was.
void follow(DoughToRead& batch, const Readings& readings);

}  // namespace barm::estimation
