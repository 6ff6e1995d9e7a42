// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/moment.h"
#include "record/recordmodel.h"

#include <QDate>
#include <QLocale>
#include <QTimeZone>

// How the paper says times, durations and what came of things. Full dates: a record is read years
// later.
namespace ramplight {

/// The language of the record's words, a BCP 47 tag: "en".
[[nodiscard]] QString recordLanguage();
/// How that language writes numbers and days, whatever the system speaks.
[[nodiscard]] QLocale recordLocale();

/// Times in the house's zone; UTC when the zone is not known to the system.
class RecordTimes
{
public:
    explicit RecordTimes(const QString& ianaZone);

    /// "Wed 5 Mar 2031, 14:10"; empty for a null moment.
    [[nodiscard]] QString full(Moment at) const;
    /// "5 Mar, 14:10", for signatures within one car's weeks.
    [[nodiscard]] QString brief(Moment at) const;
    /// "Wed 5 Mar 2031"
    [[nodiscard]] static QString date(QDate date);

private:
    QTimeZone m_zone;
};

/// "45 min", "2 h 05 min"
[[nodiscard]] QString durationWords(int minutes);
/// "Halden Skerry"
[[nodiscard]] QString carName(const Identity& identity);
/// "Handover record T-312, Halden Skerry"
[[nodiscard]] QString documentTitle(const RecordModel& model);
/// What the status means on paper: "Released to sale", "Not released yet", ...
[[nodiscard]] QString statusTitle(const RecordModel& model);
/// One sentence under it: by whom and when, or why not.
[[nodiscard]] QString statusSentence(const RecordModel& model);
enum class FindingOutcome {
    Done,     ///< all the work that it called for is closed
    Left,     ///< left as it is, told to the buyer
    Open,     ///< not finished, or nobody has decided
    NotThere, ///< was recorded by mistake
};
[[nodiscard]] FindingOutcome outcomeOf(const RecordModel& model, const RecordFinding& finding);
/// What came of a finding: done by which work, left, not finished, not there.
[[nodiscard]] QString outcomeWords(const RecordModel& model, const RecordFinding& finding);
/// The work that was to deal with a finding; with how it stands, where it stands differently.
[[nodiscard]] QString workWords(const RecordModel& model, const RecordFinding& finding);
/// How a stretch's minutes stand: "45 min", or measured and corrected with who and why.
[[nodiscard]] QString stretchWords(const RecordModel& model, const RecordStretch& stretch);
/// "Ines Vael, Oskar Brandt"
[[nodiscard]] QString namesOf(const RecordModel& model, const std::vector<PersonId>& people);

} // namespace ramplight
