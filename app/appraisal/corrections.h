// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/spokenround.h"

#include <QByteArray>
#include <QString>

#include <optional>
#include <vector>

// What a reviewer changed of what the reader understood: words, drafted, corrected. Kept for
// whoever looks after the reader. Pure.
namespace ramplight {

struct Correction
{
    QString name;     ///< of the transcript
    QString language; ///< of the lexicon
    TrafficSide traffic = TrafficSide::Left;
    QString words; ///< around the quote
    FindingData drafted;
    std::optional<FindingData> corrected; ///< empty: it was dropped

    static constexpr auto fields = fieldList(
        field("name", &Correction::name), field("language", &Correction::language),
        field("traffic", &Correction::traffic), field("words", &Correction::words),
        field("drafted", &Correction::drafted), field("corrected", &Correction::corrected));
    friend bool operator==(const Correction&, const Correction&) = default;
};

/// One line of the file, with its end.
[[nodiscard]] QByteArray correctionLine(const Correction& correction);
/// What a file holds; a line that is none (cut off by a power cut) is left out.
[[nodiscard]] std::vector<Correction> readCorrections(const QByteArray& file);
/// What still holds of them: of one draft the last word, and nothing where that says that it was
/// right after all.
[[nodiscard]] std::vector<Correction> standingCorrections(const std::vector<Correction>& all);
/// As the reader's tests want it: a comment with what was drafted, and "words => place defect
/// work".
[[nodiscard]] QString correctionTest(const Correction& correction);

} // namespace ramplight
