// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "promises.h"

#include "../domain/invariants.h"
#include "heldwall.h"

#include <QSet>

#include <algorithm>

namespace ramplight::test {

namespace {

/// Those commands of the ledger that wrote something to a car, with how many sign-offs each.
using Written = QMap<QString, int>;

QString cautionsLine(const CarId& car, OperationId operation, PersonId person)
{
    return QStringLiteral("cautions %1 %2 %3").arg(car.text).arg(operation.value).arg(person.value);
}

QString soundLine(const CarId& car, const PlaceId& place)
{
    return QStringLiteral("sound %1 %2").arg(car.text, place.text);
}

QString movedLine(const CarId& car, BayId bay, const QString& parking)
{
    return QStringLiteral("moved %1 %2 %3").arg(car.text).arg(bay.value).arg(parking);
}

/// read: who read which cautions, what was found sound, and where the car was moved to, as lines.
void lookAtCar(const CarId& id, const std::vector<CarEnvelope>& history, const SiteState& site,
               std::map<CarId, CarState>& cars, Written& written, QSet<QString>& read,
               QStringList& broken)
{
    CarState car;
    car.id = id;
    const auto say = [&](const QString& what) {
        if (!what.isEmpty())
            broken.append(QStringLiteral("car %1: %2").arg(id.text, what));
    };
    for (std::size_t i = 0; i < history.size();) {
        std::vector<CarEnvelope> group;
        for (; i < history.size() && (group.empty() || history[i].command == group.front().command);
             ++i)
            group.push_back(history[i]);
        say(brokenInStep(car, group, site));
        int& signatures = written[group.front().command.text];
        for (const CarEnvelope& entry : group) {
            apply(car, entry);
            signatures += std::holds_alternative<OperationSigned>(entry.event) ? 1 : 0;
            if (const auto* cautions = std::get_if<CautionsRead>(&entry.event))
                read.insert(cautionsLine(id, cautions->operation, entry.by));
            if (const auto* sound = std::get_if<PlacesFoundSound>(&entry.event))
                for (const PlaceId& place : sound->places)
                    read.insert(soundLine(id, place));
            if (const auto* moved = std::get_if<CarMoved>(&entry.event))
                read.insert(movedLine(id, moved->bay, moved->parking));
        }
        say(brokenInState(car));
    }
    say(brokenInStream(car, history));
    cars[id] = car;
}

QByteArray wallOf(Store& store)
{
    const auto cards = store.wall().wall();
    return cards ? digestOf(*cards) : cards.error().words.toUtf8();
}

std::vector<CarId> carsOf(SqlLedger& ledger)
{
    std::vector<CarId> cars;
    auto rows =
        ledger.connection().run("SELECT DISTINCT stream FROM ledger WHERE site = ? ORDER BY stream",
                                {ledger.siteId().text});
    while (rows && rows->next())
        if (const CarId car = carOfStream(rows->text(0)); !car.isEmpty())
            cars.push_back(car);
    return cars;
}

QList<QByteArray> wholeLines(const QByteArray& output)
{
    QList<QByteArray> lines = output.split('\n');
    lines.removeLast();
    return lines;
}

} // namespace

QStringList keptIn(const QByteArray& output)
{
    QStringList kept = toldIn(output, "kept") + toldIn(output, "signed");
    for (const QByteArray& line : wholeLines(output))
        if (line.startsWith("cautions ") || line.startsWith("sound ") || line.startsWith("moved "))
            kept.append(QString::fromUtf8(line));
    return kept;
}

QStringList toldIn(const QByteArray& output, QByteArrayView word)
{
    QStringList told;
    for (const QByteArray& line : wholeLines(output))
        if (line.startsWith(word) && line.mid(word.size()).startsWith(' '))
            told.append(QString::fromUtf8(line.mid(line.lastIndexOf(' ') + 1)));
    return told;
}

QByteArray wallIn(const StoreSettings& settings)
{
    const auto store = Store::open(settings, keeperWith());
    return store ? wallOf(**store) : store.error().words.toUtf8();
}

QStringList brokenPromises(const StoreSettings& settings, const QStringList& kept, int stopped,
                           const QStringList& refused)
{
    const auto store = Store::open(settings, keeperWith());
    if (!store)
        return {store.error().words};
    SqlLedger& ledger = (*store)->ledger();
    QStringList broken;
    const auto site = ledger.site();
    if (!site)
        return {site.error().words};
    Written written;
    QSet<QString> read;
    std::map<CarId, CarState> cars;
    for (const CarId& id : carsOf(ledger)) {
        const auto history = ledger.history(id);
        if (!history)
            return {history.error().words};
        lookAtCar(id, *history, *site, cars, written, read, broken);
    }
    if (const QString timers = brokenInTimers(cars); !timers.isEmpty())
        broken.append(timers);

    const QSet<QString> turnedAway(refused.begin(), refused.end());
    for (const QString& command : refused)
        if (ledger.isKnown(CommandId{command}).value_or(true))
            broken.append(QStringLiteral("%1 was refused and is there").arg(command));
    QSet<QString> said;
    for (const QString& line : kept) {
        const qsizetype behind = line.lastIndexOf(QLatin1Char(' '));
        const QString command = line.mid(behind + 1);
        // It was so before, by another kiosk: then there is nothing to write.
        if (behind > 0 && read.contains(line.left(behind)) &&
            !ledger.isKnown(CommandId{command}).value_or(true))
            continue;
        if (said.contains(command))
            broken.append(QStringLiteral("%1 was called kept twice").arg(command));
        said.insert(command);
        if (!ledger.isKnown(CommandId{command}).value_or(false) && !turnedAway.contains(command))
            broken.append(QStringLiteral("%1 was called kept and is not there").arg(command));
        if (written.value(command) > 1)
            broken.append(
                QStringLiteral("%1 signed %2 times").arg(command).arg(written.value(command)));
    }
    // The bench's own commands set the workshop up.
    const auto unsaid = std::ranges::count_if(written.keys(), [&](const QString& command) {
        return !said.contains(command) && !command.startsWith(QLatin1String("command-"));
    });
    if (unsaid > stopped)
        broken.append(QStringLiteral("%1 commands were kept without a word, %2 could have been")
                          .arg(unsaid)
                          .arg(stopped));
    for (const LedgerFault& fault : Verifier(ledger).run().faults)
        broken.append(fault.told());

    const QByteArray wall = wallOf(**store);
    if (!rebuildReadTables(ledger) || wallOf(**store) != wall)
        broken.append(QStringLiteral("the wall is not that of a replay"));
    return broken;
}

} // namespace ramplight::test
