// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "promises.h"

#include "../domain/invariants.h"
#include "heldwall.h"
#include "housephotos.h"

#include <QSet>

#include <algorithm>

namespace ramplight::test {

namespace {

/// Those commands of the ledger that wrote something to a car, with how many sign-offs each.
using Written = QMap<QString, int>;
/// What each of them signed, as lines.
using Signed = QMap<QString, QStringList>;

QString cautionsLine(const CarId& car, OperationId operation, PersonId person)
{
    return QStringLiteral("cautions %1 %2 %3").arg(car.text).arg(operation.value).arg(person.value);
}

QString soundLine(const CarId& car, const PlaceId& place)
{
    return QStringLiteral("sound %1 %2").arg(car.text, place.text);
}

QString repairedLine(const CarId& car, const PlaceId& panel)
{
    return QStringLiteral("repaired %1 %2").arg(car.text, panel.text);
}

QString movedLine(const CarId& car, BayId bay, const QString& parking)
{
    return QStringLiteral("moved %1 %2 %3").arg(car.text).arg(bay.value).arg(parking);
}

QString signedLine(const CarId& car, OperationId operation)
{
    return QStringLiteral("signed %1 %2").arg(car.text).arg(operation.value);
}

/// Whether it is all that was signed. Work that waited for a server may have another number there.
bool isSigned(const QString& said, const QStringList& there, bool byItsNumber)
{
    const auto carOf = [](const QString& line) { return line.section(QLatin1Char(' '), 0, 1); };
    return there.size() == 1 &&
           (byItsNumber ? there.front() == said : carOf(there.front()) == carOf(said));
}

/// The house as it was in front of each entry about a car.
class HouseThen
{
public:
    [[nodiscard]] static tl::expected<HouseThen, StoreError> read(SqlLedger& ledger)
    {
        HouseThen then;
        const auto history = ledger.siteHistory();
        if (!history)
            return tl::unexpected(history.error());
        then.m_states.resize(1);
        for (const SiteEnvelope& entry : *history) {
            then.m_states.push_back(then.m_states.back());
            apply(then.m_states.back(), entry);
        }
        auto rows = ledger.connection().run(
            "SELECT stream FROM ledger WHERE site = ? ORDER BY position", {ledger.siteId().text});
        std::size_t entries = 0;
        while (rows && rows->next()) {
            if (rows->text(0) == siteStream())
                ++entries;
            else if (const CarId car = carOfStream(rows->text(0)); !car.isEmpty())
                then.m_before[car].push_back(entries);
        }
        return then;
    }

    [[nodiscard]] const SiteState& before(const CarId& car, std::size_t entry) const
    {
        return m_states.at(m_before.at(car).at(entry));
    }

private:
    std::vector<SiteState> m_states;                    ///< after so many entries
    std::map<CarId, std::vector<std::size_t>> m_before; ///< entries of the site's
};

/// read: who read which cautions, what was looked at, which panels were found to be repaired
/// before, and where the car was moved to, as lines.
void lookAtCar(const CarId& id, const std::vector<CarEnvelope>& history, const HouseThen& house,
               std::map<CarId, CarState>& cars, Written& written, Signed& signatures,
               QSet<QString>& read, QStringList& broken)
{
    CarState car;
    car.id = id;
    const auto say = [&](const QString& what) {
        if (!what.isEmpty())
            broken.append(QStringLiteral("car %1: %2").arg(id.text, what));
    };
    for (std::size_t i = 0; i < history.size();) {
        const SiteState& site = house.before(id, i);
        std::vector<CarEnvelope> group;
        for (; i < history.size() && (group.empty() || history[i].command == group.front().command);
             ++i)
            group.push_back(history[i]);
        say(brokenInStep(car, group, site));
        const QString command = group.front().command.text;
        int& count = written[command];
        for (const CarEnvelope& entry : group) {
            apply(car, entry);
            if (const auto* one = std::get_if<OperationSigned>(&entry.event)) {
                ++count;
                signatures[command].append(signedLine(id, one->operation));
            }
            if (const auto* cautions = std::get_if<CautionsRead>(&entry.event))
                read.insert(cautionsLine(id, cautions->operation, entry.by));
            if (const auto* moved = std::get_if<CarMoved>(&entry.event))
                read.insert(movedLine(id, moved->bay, moved->parking));
        }
        for (const PlaceId& place : car.seen.keys())
            read.insert(soundLine(id, place));
        for (const auto& [number, finding] : car.findings)
            if (finding.stands() && finding.data().condition == Condition::PreviousRepair)
                read.insert(repairedLine(id, finding.data().place));
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

/// Those commands that wrote something about the house, with how often.
tl::expected<Written, StoreError> writtenOfHouse(SqlLedger& ledger)
{
    const auto history = ledger.siteHistory();
    if (!history)
        return tl::unexpected(history.error());
    Written written;
    CommandId before;
    for (const SiteEnvelope& entry : *history) {
        // One command may be several entries, none between them, and brings one person at most.
        if (entry.command != before || std::holds_alternative<PersonAdded>(entry.event))
            ++written[entry.command.text];
        before = entry.command;
    }
    return written;
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
    QStringList kept = toldIn(output, "kept");
    for (const QByteArray& line : wholeLines(output))
        for (const char* word : {"signed ", "cautions ", "sound ", "repaired ", "moved ", "house "})
            if (line.startsWith(word))
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

SiteState houseIn(const StoreSettings& settings)
{
    const auto store = Store::open(settings, keeperWith());
    return store ? (*store)->ledger().site().value_or(SiteState{}) : SiteState{};
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
    const auto house = HouseThen::read(ledger);
    if (!house)
        return {house.error().words};
    Written written;
    const auto houseWritten = writtenOfHouse(ledger);
    if (!houseWritten)
        return {houseWritten.error().words};
    for (const auto& [id, person] : site->people)
        if (person.name.isEmpty())
            broken.append(QStringLiteral("person %1 has no name").arg(id.value));
    Signed signatures;
    QSet<QString> read;
    std::map<CarId, CarState> cars;
    for (const CarId& id : carsOf(ledger)) {
        const auto history = ledger.history(id);
        if (!history)
            return {history.error().words};
        lookAtCar(id, *history, *house, cars, written, signatures, read, broken);
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
        if (line.startsWith(QLatin1String("house ")) && houseWritten->value(command) != 1)
            broken.append(QStringLiteral("%1 is %2 times in the site's stream")
                              .arg(command)
                              .arg(houseWritten->value(command)));
        if (line.startsWith(QLatin1String("signed ")) && !turnedAway.contains(command) &&
            !isSigned(line.left(behind), signatures.value(command), refused.isEmpty()))
            broken.append(QStringLiteral("%1 was called kept, and signed %2")
                              .arg(line, signatures.value(command).join(QLatin1String(", "))));
        if (written.value(command) > 1)
            broken.append(
                QStringLiteral("%1 signed %2 times").arg(command).arg(written.value(command)));
    }
    // The bench's own commands set the workshop up.
    QStringList unsaid = written.keys() + houseWritten->keys();
    unsaid.removeIf([&](const QString& command) {
        return said.contains(command) || command.startsWith(QLatin1String("command-"));
    });
    if (unsaid.size() > stopped)
        broken.append(QStringLiteral("%1 commands were kept without a word, %2 could have been: %3")
                          .arg(unsaid.size())
                          .arg(stopped)
                          .arg(unsaid.join(QLatin1String(", "))));
    const auto photos = photosOf(settings);
    for (const LedgerFault& fault : Verifier(ledger, photoCheck(*photos)).run().faults)
        broken.append(fault.told());

    const QByteArray wall = wallOf(**store);
    if (!rebuildReadTables(ledger) || wallOf(**store) != wall)
        broken.append(QStringLiteral("the wall is not that of a replay"));
    return broken;
}

} // namespace ramplight::test
