// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/cataloguechecks.h"
#include "domain/faultlist.h"
#include "domain/limitchecks.h"
#include "domain/rulechecks.h"

#include <QHash>
#include <QSet>

#include <algorithm>
#include <functional>

namespace ramplight {

namespace {

constexpr QLatin1StringView everything("*");

QStringList comesAfter(const Catalogue& catalogue, const OperationSpec& operation)
{
    QStringList ids;
    for (const QString& id : operation.after)
        if (id != everything)
            ids.append(id);
    if (operation.after.contains(everything))
        for (const OperationSpec& other : catalogue.operations)
            if (other.id != operation.id)
                ids.append(other.id);
    return ids;
}

class Checker : private FaultList
{
public:
    explicit Checker(const Catalogue& catalogue)
        : FaultList(catalogue)
    {
    }

    QStringList run()
    {
        head();
        for (const OperationSpec& operation : m_catalogue.operations)
            check(operation);
        m_faults += checkRules(m_catalogue);
        m_faults += checkNamedLimits(m_catalogue);
        // Cycles are sought among ids that exist; a missing one was named above.
        if (m_faults.isEmpty())
            orders();
        return m_faults;
    }

private:
    void head()
    {
        const QString where = QStringLiteral("catalogue");
        if (m_catalogue.format != 1)
            say(where, QStringLiteral("format"), QStringLiteral("1 was expected"));
        needWords(where, QStringLiteral("title"), m_catalogue.title);
        needWords(where, QStringLiteral("standingLine"), m_catalogue.standingLine);
        if (m_catalogue.operations.empty())
            say(where, QStringLiteral("operations"),
                QStringLiteral("at least one operation was expected"));
        QSet<QString> ids;
        for (const OperationSpec& operation : m_catalogue.operations) {
            if (ids.contains(operation.id))
                say(QStringLiteral("operation %1").arg(operation.id), QStringLiteral("id"),
                    QStringLiteral("there are two operations of this id"));
            ids.insert(operation.id);
        }
    }

    void check(const OperationSpec& operation)
    {
        const QString where = QStringLiteral("operation %1").arg(operation.id);
        needPlainId(where, operation.id);
        needWords(where, QStringLiteral("title"), operation.title);
        const Minutes& minutes = operation.minutes;
        if (minutes.low < 1 || minutes.usual < minutes.low || minutes.high < minutes.usual)
            say(where, QStringLiteral("minutes"),
                QStringLiteral("low, usual and high were expected to rise from at least 1"));
        for (const QString& id : operation.after) {
            if (id == everything)
                continue;
            needId(where, QStringLiteral("after"), id);
            if (id == operation.id)
                say(where, QStringLiteral("after"), QStringLiteral("it cannot come after itself"));
        }
        for (const Trigger& trigger : operation.triggers) {
            needId(where, QStringLiteral("triggers"), trigger.opens);
            const OperationSpec* opened = m_catalogue.find(trigger.opens);
            if (opened != nullptr && opened->ifFact && trigger.ifFact != opened->ifFact)
                say(where, QStringLiteral("triggers"),
                    QStringLiteral("\"%1\" is only for cars with %2, so ifFact was expected here")
                        .arg(trigger.opens, nameOf(*opened->ifFact)));
        }
        together(where, operation);
        needPlaces(where, QStringLiteral("clears"), operation.clears);
        secondPerson(where, operation);
        waiting(where, operation);
        QSet<QString> keys;
        for (const ReadingSpec& reading : operation.readings) {
            const QString at = QStringLiteral("%1, reading %2").arg(where, reading.key);
            needPlainId(at, reading.key);
            if (keys.contains(reading.key))
                say(at, QStringLiteral("key"), QStringLiteral("it is there twice"));
            keys.insert(reading.key);
            check(at, reading);
            checkedWork(at, operation, reading);
        }
        for (const PhotoSpec& photo : operation.photos)
            needWords(where, QStringLiteral("photos"), photo.title);
        for (const QString& caution : operation.cautions)
            needWords(where, QStringLiteral("cautions"), caution);
        for (const QString& advice : operation.advice)
            needWords(where, QStringLiteral("advice"), advice);
        const bool proved =
            !operation.photos.empty() ||
            std::ranges::any_of(operation.readings, [](const auto& r) { return !r.optional; });
        if (operation.safety && !proved)
            say(where, QStringLiteral("safety"),
                QStringLiteral("a safety operation needs a reading or a photo that proves it"));
        if (operation.highVoltageIsolation && !operation.safety)
            say(where, QStringLiteral("highVoltageIsolation"),
                QStringLiteral("an operation that isolates high voltage is a safety operation"));
    }

    /// Only a check sends work back.
    void checkedWork(const QString& where, const OperationSpec& operation,
                     const ReadingSpec& reading)
    {
        const bool goesBack = reading.remediedBy == RemediedBy::CheckedWork ||
                              std::ranges::any_of(reading.options, [](const auto& option) {
                                  return option.remediedBy == RemediedBy::CheckedWork;
                              });
        if (goesBack && operation.secondPerson != SecondPerson::Check)
            say(where, QStringLiteral("remediedBy"),
                QStringLiteral("only a check sends the work back that it checks"));
    }

    /// What it does for others, and what goes on beside it.
    void together(const QString& where, const OperationSpec& operation)
    {
        for (const QString& id : operation.beside)
            if (id != everything)
                needId(where, QStringLiteral("beside"), id);
        for (const QString& id : operation.covers) {
            needId(where, QStringLiteral("covers"), id);
            const OperationSpec* covered = m_catalogue.find(id);
            if (covered == nullptr)
                continue;
            if (covered->safety && !operation.safety)
                say(where, QStringLiteral("covers"),
                    QStringLiteral("\"%1\" is a safety operation, so only one can cover it")
                        .arg(id));
            if (id == operation.id || covered->covers.contains(operation.id))
                say(where, QStringLiteral("covers"),
                    QStringLiteral("\"%1\" and this would cover each other").arg(id));
            if (covered->scope != operation.scope)
                say(where, QStringLiteral("covers"),
                    QStringLiteral("\"%1\" reaches another part of the car").arg(id));
        }
        if (operation.batch < 1)
            say(where, QStringLiteral("batch"), QStringLiteral("1 or more was expected"));
        if (operation.materialMinor && *operation.materialMinor < 0)
            say(where, QStringLiteral("materialMinor"),
                QStringLiteral("0 or more minor currency units were expected"));
        if (operation.access &&
            (operation.baseline || operation.secondPerson != SecondPerson::None))
            say(where, QStringLiteral("access"),
                QStringLiteral("only what findings open to get at something has this"));
        for (const QString& words : operation.refer)
            needWords(where, QStringLiteral("refer"), words);
    }

    void secondPerson(const QString& where, const OperationSpec& operation)
    {
        const bool isCheck = operation.secondPerson == SecondPerson::Check;
        const QString field = QStringLiteral("checksWorkOf");
        if (isCheck && operation.checksWorkOf.isEmpty())
            say(where, field, QStringLiteral("a check names the operations whose work it checks"));
        if (!isCheck && !operation.checksWorkOf.isEmpty())
            say(where, field, QStringLiteral("only an operation that is a check has this"));
        for (const QString& id : operation.checksWorkOf)
            if (id != everything)
                needId(where, field, id);
    }

    void waiting(const QString& where, const OperationSpec& operation)
    {
        const WaitingTime& wait = operation.wait;
        if (wait.usual < 0)
            say(where, QStringLiteral("wait.usual"),
                QStringLiteral("minutes from 0 up were expected"));
        if (wait.usual > 0)
            needWords(where, QStringLiteral("wait.reason"), wait.reason);
        if (!wait.reading.isEmpty()) {
            const auto given =
                std::ranges::find(operation.readings, wait.reading, &ReadingSpec::key);
            if (given == operation.readings.end() || given->unit != Unit::Minute ||
                !given->places.empty() || given->decimals != 0 || given->optional)
                say(where, QStringLiteral("wait.reading"),
                    QStringLiteral("a required reading of this operation in whole minutes was "
                                   "expected, not \"%1\"")
                        .arg(wait.reading));
        }
        for (const Immobilises& immobilises : operation.immobilises) {
            const QString field = QStringLiteral("immobilises");
            if (immobilises.what.empty())
                say(where, field, QStringLiteral("move, drive or power was expected"));
            needWords(where, field, immobilises.words);
            if (immobilises.from == RestraintFrom::Waiting && wait.usual == 0)
                say(where, field, QStringLiteral("there is no waiting time that it could last"));
        }
    }

    void check(const QString& where, const ReadingSpec& reading)
    {
        needWords(where, QStringLiteral("title"), reading.title);
        needPlaces(where, QStringLiteral("places"), reading.places);
        if (reading.decimals < 0 || reading.decimals > 3)
            say(where, QStringLiteral("decimals"), QStringLiteral("0 to 3 were expected"));
        const bool isLimit = reading.kind == ReadingKind::Limit;
        const bool isFigure = reading.kind == ReadingKind::Figure;
        const bool isChoice = reading.kind == ReadingKind::Choice;
        if (isLimit && reading.limits.empty() && !reading.neededFrom)
            say(where, QStringLiteral("limits"),
                QStringLiteral("a limit, or neededFrom, was expected"));
        if (!isLimit && !reading.limits.empty())
            say(where, QStringLiteral("limits"),
                QStringLiteral("only a reading of the kind limit has them"));
        if (isFigure && !reading.neededFrom)
            say(where, QStringLiteral("neededFrom"),
                QStringLiteral("who knows this car's figure was expected"));
        if (!isLimit && !isFigure && reading.neededFrom)
            say(where, QStringLiteral("neededFrom"),
                QStringLiteral("only a limit or a figure is needed from somebody"));
        if ((isLimit || isFigure) && reading.unit == Unit::None)
            say(where, QStringLiteral("unit"), QStringLiteral("a unit was expected"));
        if (!isLimit && !reading.opens.isEmpty())
            say(where, QStringLiteral("opens"),
                QStringLiteral("only a reading of the kind limit opens something itself"));
        if (!reading.opens.isEmpty())
            needId(where, QStringLiteral("opens"), reading.opens);
        if (reading.remediedBy && (!isLimit || !reading.opens.isEmpty()))
            say(where, QStringLiteral("remediedBy"),
                QStringLiteral("only a reading of the kind limit that opens nothing has it"));
        for (const Limit& limit : reading.limits)
            check(where, limit);
        if (isChoice)
            options(where, reading);
        else if (!reading.options.empty())
            say(where, QStringLiteral("options"),
                QStringLiteral("only a reading of the kind choice has them"));
    }

    void check(const QString& where, const Limit& limit)
    {
        if (!limit.named.isEmpty()) {
            if (limit.min || limit.max)
                say(where, QStringLiteral("limits"),
                    QStringLiteral("a limit that is named has no bound of its own"));
            return;
        }
        needWords(where, QStringLiteral("limits, source"), limit.source);
        if (!limit.min && !limit.max)
            say(where, QStringLiteral("limits"), QStringLiteral("min or max was expected"));
        if (limit.min && limit.max && *limit.min > *limit.max)
            say(where, QStringLiteral("limits"), QStringLiteral("min is above max"));
    }

    void options(const QString& where, const ReadingSpec& reading)
    {
        const QString field = QStringLiteral("options");
        if (reading.options.size() < 2)
            say(where, field, QStringLiteral("two options or more were expected"));
        QSet<QString> ids;
        for (const ChoiceOption& option : reading.options) {
            const QString at = QStringLiteral("%1, option %2").arg(where, option.id);
            needPlainId(at, option.id);
            needWords(at, QStringLiteral("title"), option.title);
            if (ids.contains(option.id))
                say(at, QStringLiteral("id"), QStringLiteral("it is there twice"));
            ids.insert(option.id);
            if (!option.opens.isEmpty())
                needId(at, QStringLiteral("opens"), option.opens);
            if (option.remediedBy && (option.closes || !option.opens.isEmpty()))
                say(at, QStringLiteral("remediedBy"),
                    QStringLiteral("only an answer that forbids closing and opens nothing has it"));
        }
        if (std::ranges::none_of(reading.options, &ChoiceOption::closes))
            say(where, field, QStringLiteral("no answer would let the operation close"));
    }

    using Next = std::function<QStringList(const OperationSpec&)>;

    /// The ids of a circle along next, first one repeated at the end; empty when there is none.
    [[nodiscard]] QStringList circle(const Next& next) const
    {
        QHash<QString, int> state; // 1: on the path, 2: done
        QStringList path;
        const std::function<QStringList(const QString&)> go =
            [&](const QString& id) -> QStringList {
            state[id] = 1;
            path.append(id);
            const OperationSpec* operation = m_catalogue.find(id);
            const QStringList following = operation == nullptr ? QStringList() : next(*operation);
            for (const QString& other : following) {
                if (state.value(other) == 1)
                    return path.mid(path.indexOf(other)) << other;
                if (state.value(other) == 0)
                    if (QStringList found = go(other); !found.isEmpty())
                        return found;
            }
            path.removeLast();
            state[id] = 2;
            return {};
        };
        for (const OperationSpec& operation : m_catalogue.operations)
            if (state.value(operation.id) == 0)
                if (QStringList found = go(operation.id); !found.isEmpty())
                    return found;
        return {};
    }

    void sayCircle(const QString& field, const QString& words, const Next& next)
    {
        const QStringList found = circle(next);
        if (!found.isEmpty())
            say(QStringLiteral("operation %1").arg(found.first()), field,
                words.arg(found.join(QStringLiteral(" > "))));
    }

    void orders()
    {
        const qsizetype before = m_faults.size();
        sayCircle(QStringLiteral("after"), QStringLiteral("a circle, nothing could start: %1"),
                  [this](const OperationSpec& o) { return comesAfter(m_catalogue, o); });
        sayCircle(QStringLiteral("triggers"), QStringLiteral("a circle, it would never end: %1"),
                  [](const OperationSpec& o) {
                      QStringList opened;
                      for (const Trigger& trigger : o.triggers)
                          opened.append(trigger.opens);
                      return opened;
                  });
        if (m_faults.size() == before)
            sayCircle(QStringLiteral("after, opens, needs"),
                      QStringLiteral("no legal order, each waits for the next: %1"),
                      [this](const OperationSpec& o) { return waitsFor(m_catalogue, o); });
    }
};

} // namespace

QStringList waitsFor(const Catalogue& catalogue, const OperationSpec& operation)
{
    QStringList ids = comesAfter(catalogue, operation);
    for (const ReadingSpec& reading : operation.readings) {
        if (!reading.opens.isEmpty())
            ids.append(reading.opens);
        for (const ChoiceOption& option : reading.options)
            if (!option.closes && !option.opens.isEmpty())
                ids.append(option.opens);
    }
    for (const OperationSpec& other : catalogue.operations) {
        const bool forbids =
            other.id != operation.id &&
            std::ranges::any_of(other.immobilises, [&](const Immobilises& immobilises) {
                return std::ranges::find_first_of(immobilises.what, operation.needs) !=
                       immobilises.what.end();
            });
        if (forbids)
            ids.append(other.id);
    }
    ids.removeDuplicates();
    return ids;
}

QStringList checkCatalogue(const Catalogue& catalogue)
{
    return Checker(catalogue).run();
}

} // namespace ramplight
