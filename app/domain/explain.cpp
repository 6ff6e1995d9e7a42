// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/explain.h"

#include "domain/findingrules.h"
#include "domain/holds.h"
#include "domain/say.h"
#include "domain/words.h"

#include <algorithm>
#include <set>

namespace ramplight {

namespace {

class Explainer
{
public:
    Explainer(const CarState& car, const Catalogue& catalogue, const HouseRules& rules)
        : m_car(car)
        , m_catalogue(catalogue)
        , m_rules(rules)
    {
    }

    [[nodiscard]] Explained of(const Operation& operation) const
    {
        Explained explained;
        explained.operation = operation.id;
        explained.title = titleOf(operation);
        explained.state = words(operation.state);
        explained.from = from(operation);
        for (const OperationId id : comesFirst(m_car, operation))
            explained.waitsFor.append(titleOf(*m_car.operation(id)));
        for (const Trigger& trigger : operation.spec->triggers)
            if (fits(trigger.ifFact, m_car.facts))
                explained.brings.append(kindWords(trigger.opens));
        explained.mayBring = mayBring(operation.spec);
        if (!operation.spec->beside.contains(QStringLiteral("*"))) {
            QStringList kinds;
            for (const QString& id : operation.spec->beside)
                kinds.append(kindWords(id));
            explained.beside.append(
                kinds.isEmpty() ? say("nothing else on the car meanwhile")
                                : say("meanwhile only: %1").arg(kinds.join(QStringLiteral(", "))));
        }
        if (!operation.spec->overnight)
            explained.beside.append(say("not left half done overnight"));
        return explained;
    }

private:
    [[nodiscard]] QString titleOf(const Operation& operation) const
    {
        return operationTitle(operation.spec, operation.place, m_rules);
    }

    [[nodiscard]] QString kindWords(const QString& id) const
    {
        const OperationSpec* spec = m_catalogue.find(id);
        return spec == nullptr ? id : spec->title;
    }

    [[nodiscard]] QStringList from(const Operation& operation) const
    {
        QStringList lines;
        for (const FindingId id : operation.findings)
            if (const Finding* finding = m_car.finding(id)) {
                QString line = findingWords(finding->data(), m_rules);
                if (!finding->rule.isEmpty())
                    line += say("; rule %1").arg(finding->rule);
                if (!finding->why.isEmpty())
                    line += say(": %1").arg(finding->why);
                lines.append(line);
            }
        for (const OperationId id : operation.restsOn)
            if (const Operation* base = m_car.operation(id))
                lines.append(say("due after: %1").arg(titleOf(*base)));
        for (const ReadingId id : operation.fromReadings)
            lines.append(readingLine(id));
        if (operation.origin == Origin::Baseline)
            lines.prepend(operation.spec->ifFact
                              ? say("every car with: %1").arg(words(*operation.spec->ifFact))
                              : say("every car"));
        if (operation.origin == Origin::Fact)
            lines.prepend(say("a fact of the car: %1").arg(operation.reason));
        if (operation.origin == Origin::ByHand)
            lines.prepend(say("added by hand: %1").arg(operation.reason));
        return lines;
    }

    [[nodiscard]] QString readingLine(ReadingId id) const
    {
        for (const auto& [number, operation] : m_car.operations)
            for (const Reading& reading : operation.readings) {
                if (reading.id != id)
                    continue;
                const auto& specs = operation.spec->readings;
                const auto spec = std::ranges::find(specs, reading.key, &ReadingSpec::key);
                return spec == specs.end()
                           ? titleOf(operation)
                           : say("measured: %1, %2 (%3)")
                                 .arg(spec->title, readingWords(*spec, reading.value),
                                      titleOf(operation));
            }
        return say("a reading that is not there any more");
    }

    [[nodiscard]] QStringList mayBring(const OperationSpec& spec) const
    {
        QStringList kinds;
        const auto add = [&](const QString& id) {
            if (!id.isEmpty() && !kinds.contains(kindWords(id)))
                kinds.append(kindWords(id));
        };
        for (const ReadingSpec& reading : spec.readings) {
            add(reading.opens);
            for (const ChoiceOption& option : reading.options)
                add(option.opens);
        }
        return kinds;
    }

    const CarState& m_car;
    const Catalogue& m_catalogue;
    const HouseRules& m_rules;
};

} // namespace

std::vector<OperationId> workOrder(const CarState& car)
{
    std::vector<OperationId> left;
    for (const Operation* operation : car.openOperations())
        left.push_back(operation->id);
    std::vector<OperationId> order;
    std::set<OperationId> done;
    while (!left.empty()) {
        const auto next = std::ranges::find_if(left, [&](OperationId id) {
            return std::ranges::all_of(comesFirst(car, *car.operation(id)),
                                       [&](OperationId other) { return done.contains(other); });
        });
        // A catalogue without a circle always has a next one.
        const auto taken = next == left.end() ? left.begin() : next;
        done.insert(*taken);
        order.push_back(*taken);
        left.erase(taken);
    }
    return order;
}

std::vector<Explained> explain(const CarState& car, const Catalogue& catalogue,
                               const HouseRules& rules)
{
    const Explainer explainer(car, catalogue, rules);
    std::vector<Explained> all;
    for (const auto& [id, operation] : car.operations)
        if (!operation.isOpen() && operation.state != OperationState::Withdrawn)
            all.push_back(explainer.of(operation));
    for (const OperationId id : workOrder(car))
        all.push_back(explainer.of(*car.operation(id)));
    return all;
}

QString explainText(const CarState& car, const Catalogue& catalogue, const HouseRules& rules)
{
    QString text = QStringLiteral("%1  %2  %3 %4\n")
                       .arg(car.identity.stockNumber, car.identity.registration, car.identity.make,
                            car.identity.model);
    const auto lines = [&text](const QString& head, const QStringList& items) {
        for (const QString& item : items)
            text += QStringLiteral("    %1 %2\n").arg(head, -12).arg(item);
    };
    const auto together = [&lines](const QString& head, const QStringList& items) {
        if (!items.isEmpty())
            lines(head, {items.join(QStringLiteral(", "))});
    };
    for (const Explained& e : explain(car, catalogue, rules)) {
        text += QStringLiteral("\n%1 (%2)\n").arg(e.title, e.state);
        lines(say("because"), e.from);
        together(say("waits for"), e.waitsFor);
        together(say("brings"), e.brings);
        // What is over brings nothing any more.
        if (car.operation(e.operation)->isOpen()) {
            together(say("may bring"), e.mayBring);
            lines(say("careful"), e.beside);
        }
    }
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && (finding.disclosed || finding.undecided))
            text += QStringLiteral("\n%1: %2\n")
                        .arg(finding.undecided ? say("Nobody has decided") : say("Left and told"),
                             findingWords(finding.data(), rules));
    return text;
}

} // namespace ramplight
