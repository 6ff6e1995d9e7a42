// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "domain/site.h"

#include <QByteArray>
#include <QImage>
#include <QStringList>

#include <tl/expected.hpp>

#include <vector>

// The sheet that hangs in a car while it is in prep: one A5 page that says that it is not for sale,
// which car it is, what must not be done with it and what is outstanding, with a code that opens it
// at the kiosk. Paper grows old, so it says of when it is. Rendering needs a QGuiApplication
// (fonts); any thread.
namespace ramplight {

/// One outstanding operation.
struct DoorSheetLine
{
    QString title; ///< with its place
    QString note;  ///< "part: mirror glass, due Thu 4 May 2031"; may be empty
    bool safety = false;
    friend bool operator==(const DoorSheetLine&, const DoorSheetLine&) = default;
};

struct DoorSheetModel
{
    QString stockNumber;
    QString registration;
    QString carWords;       ///< "Halden Skerry, hatch, slate"
    QString promisedWords;  ///< "Promised for Thu 4 May 2031"; empty
    QStringList restraints; ///< "Do not move or drive: wheels are off", one for each reason
    std::vector<DoorSheetLine> lines; ///< safety first, what can begin before the rest
    int safetyCount = 0;              ///< of them
    QString statusWords;              ///< when nothing is outstanding: why it is not for sale yet
    QString code;                     ///< for the scanner; empty: none can be made
    QString madeWords;                ///< "Thu 4 May 2031, 14:10"
    QString site;
    bool demo = false;
};

/// What stands on the sheet of a car; code: see carLabelCode(). Error: words, where the car is not
/// in prep (released, withdrawn).
[[nodiscard]] tl::expected<DoorSheetModel, QString>
doorSheetOf(const CarState& car, const SiteState& site, const QString& code, Moment now);

/// Error: words.
[[nodiscard]] tl::expected<QByteArray, QString> renderDoorSheetPdf(const DoorSheetModel& model);
/// The same for the screen.
[[nodiscard]] QImage renderDoorSheetImage(const DoorSheetModel& model, double dpi);

} // namespace ramplight
