// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/spoken/lexicon.h"
#include "appraisal/spoken/transcript.h"
#include "domain/houserules.h"
#include "domain/odometer.h"

#include <map>
#include <optional>

// A transcript read: what was found, measured, said to be sound, and said of the vehicle.
namespace ramplight {

enum class Traffic { Left, Right };

struct SpokenFinding
{
    PlaceId place;
    Condition condition = Condition::Mark;
    std::optional<Severity> severity = {};
    std::vector<Remedy> remedies = {}; ///< in spoken order
    std::optional<int> count = {};
    double seconds = -1;     ///< from the start; -1: the transcript has no times
    std::string quote;       ///< the words it rests on
    double confidence = 0;   ///< 0..1: the share of such findings that are right
    std::uint32_t begin = 0; ///< of the quote: bytes of the words (heardwords.h)
    std::uint32_t end = 0;
};

struct SpokenTread
{
    PlaceId place;
    int lowTenthsMm = 0;
    int highTenthsMm = 0;
    double seconds = -1;
    std::string quote;
};

struct SpokenFacts
{
    std::optional<int> odometer = {};
    DistanceUnit odometerUnit = DistanceUnit::Miles;
    std::optional<int> keys = {};
    std::optional<int> testMonths = {};
    std::optional<int> serviceStamps = {};
    std::optional<int> owners = {};
};

struct SpokenReading
{
    std::vector<SpokenFinding> findings;
    std::vector<SpokenTread> treads;
    std::vector<PlaceId> sound;
    std::vector<PlaceId> notMentioned;
    SpokenFacts facts;
};

[[nodiscard]] SpokenReading readSpeech(const Transcript& transcript, const spoken::Lexicon& lexicon,
                                       Traffic traffic);
/// The JSON that the contract between reader and review screen describes.
[[nodiscard]] QByteArray readingJson(const SpokenReading& reading);
/// The same for people, a line each, in the words of a house.
[[nodiscard]] QString readingWords(const SpokenReading& reading, const HouseRules& rules);

} // namespace ramplight
