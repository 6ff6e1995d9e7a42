// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/restorenote.h"

#include "backup/summedjson.h"
#include "domain/say.h"

namespace ramplight {
namespace {

QString wordsOf(const CarLeftBehind& car)
{
    if (car.stockNumber.isEmpty())
        return say("A car whose stock number is not known (%1) did not come along: look which car "
                   "of the yard is not on the wall, and bring it in again.")
            .arg(car.car.text);
    return (car.isNew
                ? say("%1: it came in after the backup, and what was entered could not be read. "
                      "It is not on the wall: bring it in again, look at it and ask who worked on "
                      "it.")
                : say("%1: what was done since the backup could not be read. Look at the car and "
                      "ask who worked on it."))
        .arg(car.stockNumber);
}

/// More than that nobody reads car by car.
constexpr std::size_t toldOneByOne = 6;

void tellTogether(const std::vector<CarLeftBehind>& cars, std::vector<QString>& told)
{
    QStringList known;
    QStringList arrived;
    for (const CarLeftBehind& car : cars)
        if (car.stockNumber.isEmpty())
            told.push_back(wordsOf(car));
        else
            (car.isNew ? arrived : known).append(car.stockNumber);
    if (!known.isEmpty())
        told.push_back(say("%1: what was done since the backup could not be read. Look at each of "
                           "these cars and ask who worked on it.")
                           .arg(known.join(QStringLiteral(", "))));
    if (!arrived.isEmpty())
        told.push_back(say("%1: they came in after the backup, and what was entered could not be "
                           "read. They are not on the wall: bring them in again, look at each and "
                           "ask who worked on it.")
                           .arg(arrived.join(QStringLiteral(", "))));
}

QString cameAlong(const Salvaged& salvaged)
{
    const QString entries =
        salvaged.entries == 1 ? say("1 entry") : say("%1 entries").arg(salvaged.entries);
    const QString cars = salvaged.cars.empty()       ? say("people, bays and rules")
                         : salvaged.cars.size() == 1 ? say("1 car")
                                                     : say("%1 cars").arg(salvaged.cars.size());
    return say("Read out of the damaged file, of what was done since the backup: %1, of %2.")
        .arg(entries, cars);
}

} // namespace

RestoreNote noteOf(const Salvaged& salvaged, int missingPhotos)
{
    RestoreNote note;
    if (!salvaged.hindrance.isEmpty())
        note.told.push_back(
            say("Nothing that was done since the backup came along. %1").arg(salvaged.hindrance));
    else if (salvaged.entries > 0)
        note.told.push_back(cameAlong(salvaged));
    else if (salvaged.leftBehind.empty() && !salvaged.siteLeftBehind)
        note.told.push_back(say("Nothing was entered since the backup."));
    for (const CarLeftBehind& car : salvaged.leftBehind)
        if (!car.stockNumber.isEmpty())
            note.cars.push_back(car.stockNumber);
    if (salvaged.leftBehind.size() <= toldOneByOne)
        for (const CarLeftBehind& car : salvaged.leftBehind)
            note.told.push_back(wordsOf(car));
    else
        tellTogether(salvaged.leftBehind, note.told);
    if (salvaged.siteLeftBehind)
        note.told.push_back(say("People, rights, bays or rules were changed since the backup, and "
                                "that could not be read: they are as they were then."));
    if (!salvaged.staffCame)
        note.told.push_back(say("Names, PINs, badges and settings are as they were when the backup "
                                "was made."));
    if (missingPhotos > 0)
        note.told.push_back(say("Photos taken since the backup that are missing or damaged: %1.")
                                .arg(missingPhotos));
    if (salvaged.perhapsMore)
        note.told.push_back(say("More may have been done that nothing tells of any more: look at "
                                "every car in prep."));
    note.isLeftBehind = salvaged.perhapsMore || salvaged.siteLeftBehind || missingPhotos > 0 ||
                        !salvaged.leftBehind.empty();
    return note;
}

void tellWhatWasSo(RestoreNote& note, const QStringList& faults)
{
    if (faults.isEmpty())
        return;
    const auto shown = static_cast<qsizetype>(toldOneByOne);
    QStringList told = faults.mid(0, shown);
    if (faults.size() > shown)
        told.append(say("and %1 more").arg(faults.size() - shown));
    note.told.push_back(say("The check had found this wrong already when the backup was made, and "
                            "it is as it was then: %1")
                            .arg(told.join(QStringLiteral("; "))));
}

void tellWhatLacks(RestoreNote& note, const Lacking& lacking)
{
    if (lacking.photos > 0)
        note.told.push_back(say("Photos that did not come back, because neither the backup nor the "
                                "workshop's folder has them whole: %1. Where the car is still "
                                "here, take them again.")
                                .arg(lacking.photos));
    if (lacking.walkRounds > 0)
        note.told.push_back(say("Walk-rounds whose words did not come back, because neither the "
                                "backup nor the workshop's folder has them whole: %1. What was "
                                "made of them is all here.")
                                .arg(lacking.walkRounds));
}

RestoreNote readRestoreNote(const QString& path)
{
    return noteIn<RestoreNote>(path);
}

tl::expected<void, QString> keepRestoreNote(const QString& path, const RestoreNote& note)
{
    return keepSummed(path, toJson(note));
}

} // namespace ramplight
