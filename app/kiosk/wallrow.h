// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcard.h"
#include "kiosk/sitebook.h"

#include <QList>
#include <QString>
#include <QStringList>
#include <QVariantMap>

#include <optional>

// A car's card in words. Pure functions of the card, the site and now.
namespace ramplight {

/// A card as the wall draws it; everything is words, numbers of kioskenums.h, or lists of them.
struct WallRow
{
    QString carId;
    QString stockNumber;
    QString registration;
    QString makeModel;
    QString shape;       ///< id for CarDrawing
    QString shapeColour; ///< "hatch · slate"
    QVariantMap marks;   ///< place id -> Wall.Mark
    int band = 0;        ///< Wall.Band
    QString statusWord;
    QStringList lineTitles; ///< outstanding, safety first; at most lineLimit
    QList<int> lineSigns;   ///< Wall.LineSign
    QList<int> lineBands;   ///< Wall.Band: the state of that line
    QStringList lineWords;  ///< "Ines, 38 min", "awaiting check", "part due Thu"; may be empty
    int moreCount = 0;      ///< lines that did not fit
    QString footWho;        ///< "Ines · wheels", "waits for glass", "ready for release"
    QString footWhat;       ///< "38 min", "due Thu", "wants a signature"
    bool forgotten = false; ///< a timer on it probably was; footWhat asks
    bool pastDue = false;   ///< footWhat says "was due": what the car waits for should be here
    QString promisedWord;   ///< "today", "Thu"; empty when nothing was promised
    bool late = false;      ///< its day is over
    QString forecastWord;   ///< "Fri 15:00": ready by then as it stands; empty without a plan
    /// What that is: "will be ready", "late: will be ready", of a car that is ready "ready" or
    /// "late, ready"; without a plan or an end "late" or empty.
    QString forecastLead;
    QString forecastNote;    ///< "promised Thu"; without a plan, too
    bool willBeLate = false; ///< by the forecast, its day not being over
    QString placeWord;       ///< "bay 1", the parking place
    QString restraintWords;  ///< "Do not move: wheels are off"; empty
    QString restraintShort;  ///< "Do not move"; empty
    int safetyCount = 0;
    bool releasable = false; ///< ready, and wants a signature

    [[nodiscard]] QString key() const { return carId; }
    friend bool operator==(const WallRow&, const WallRow&) = default;
};

/// What the wall is filtered by, as far as it changes a card.
struct WallLook
{
    std::optional<Skill> skill; ///< its lines lead the card
    int lineLimit = 4;
};

[[nodiscard]] WallRow wallRow(const CarCard& card, const SiteBook& book, Moment now,
                              const WallLook& look);
/// Wall.Band of the whole card.
[[nodiscard]] int bandOf(const CarCard& card, Moment now);
/// The line is work of this skill; for checks also what awaits a second signature.
[[nodiscard]] bool isOfSkill(const CardLine& line, Skill skill);
/// Somebody could go on with it now: it neither runs nor waits for a part or a firm.
[[nodiscard]] bool canGoOn(const CardLine& line);
/// The skill could go on with it now; what awaits a second signature waits for checks alone.
[[nodiscard]] bool waitsFor(const CardLine& line, Skill skill);
/// In hand of this person or handed to them.
[[nodiscard]] bool isOfPerson(const CardLine& line, PersonId person);
/// All minutes on it, running ones up to now.
[[nodiscard]] int minutesOn(const CardLine& line, Moment now);
/// Somebody probably forgot to stop the timer that runs on it.
[[nodiscard]] bool isForgotten(const CardLine& line, const HouseRules& rules, Moment now);
/// The work in hand that stands for the whole car: a forgotten timer's before all other, then what
/// has run the longest. Null when nobody is on the car.
[[nodiscard]] const CardLine* inHandOn(const CarCard& card, const HouseRules& rules, Moment now);
/// Whose timers run on the car, each once.
[[nodiscard]] std::vector<PersonId> whoWorksOn(const CarCard& card);
/// "runs since 07:40: still working?"
[[nodiscard]] QString stillWorkingWords(Moment since, const TimeWords& times, Moment now);
/// "R-9" before "R-10".
[[nodiscard]] bool naturallyLess(const QString& a, const QString& b);

} // namespace ramplight
