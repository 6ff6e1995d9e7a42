// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "goldenappraisal.h"

#include "shippedcatalogue.h"

#include "domain/explain.h"
#include "domain/findingrules.h"

#include <algorithm>

namespace ramplight::test {

namespace {

QString list(const QStringList& words)
{
    return words.join(QStringLiteral(", "));
}

QString nameOfOperation(const Operation& operation)
{
    return operation.place == wholeCar()
               ? operation.spec->id
               : QStringLiteral("%1 at %2").arg(operation.spec->id, operation.place.text);
}

/// Plays the lines of one appraisal.
class Player
{
public:
    void play(const QString& upper)
    {
        m_bench.catalogue = theShippedCatalogue();
        std::vector<PlaceId> unseen;
        QStringList takenOut;
        std::vector<FindingData> findings;
        CarFacts facts = carWith({});
        for (const QString& line : upper.split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
            QStringList words = line.split(QLatin1Char(' '), Qt::SkipEmptyParts);
            const QString what = words.takeFirst();
            if (what == QStringLiteral("facts")) {
                for (const QString& word : words)
                    if (const auto fact = fromName<Fact>(word))
                        facts.has.push_back(*fact);
            } else if (what == QStringLiteral("found")) {
                findings.push_back(findingOf(words));
            } else if (what == QStringLiteral("unseen")) {
                for (const QString& word : words)
                    unseen.push_back(PlaceId{word});
            } else if (what == QStringLiteral("out")) {
                takenOut.append(words.join(QLatin1Char(' ')));
            }
        }
        m_id = m_bench.bringIn(facts);
        std::vector<PlaceId> sound;
        for (const PlaceInfo& info : allPlaces())
            if (std::ranges::find(unseen, info.id) == unseen.end() &&
                std::ranges::find(findings, info.id, &FindingData::place) == findings.end())
                sound.push_back(info.id);
        m_bench.must(m_bench.appraiser, m_id, car::FindSound{sound});
        for (const FindingData& data : findings)
            m_bench.must(m_bench.appraiser, m_id, car::RecordFinding{data, {}});
        for (const QString& line : takenOut) {
            const QStringList words = line.section(QLatin1Char(':'), 0, 0).split(QLatin1Char(' '));
            const OperationId operation =
                m_bench.open(m_id, qPrintable(words.value(0)), qPrintable(words.value(1)));
            m_bench.must(m_bench.appraiser, m_id,
                         car::TakeOut{operation, line.section(QLatin1Char(':'), 1).trimmed()});
        }
        m_bench.must(m_bench.appraiser, m_id, car::FinishAppraisal{});
    }

    [[nodiscard]] QString outcome()
    {
        const CarState car = m_bench.car(m_id);
        QStringList lines{QStringLiteral("findings")};
        for (const auto& [id, finding] : car.findings)
            lines.append(lineOf(finding));
        lines.append(QStringLiteral("operations"));
        for (const OperationId id : workOrder(car))
            lines.append(lineOf(car, *car.operation(id)));
        lines.append(QStringLiteral("not needed"));
        for (const auto& [id, operation] : car.operations)
            if (operation.state == OperationState::Withdrawn)
                lines.append(QStringLiteral("    %1: %2")
                                 .arg(nameOfOperation(operation), operation.withdrawnWhy));
        lines.append(QStringLiteral("holds"));
        lines.append(holdLines(car));
        return lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
    }

private:
    [[nodiscard]] static QString lineOf(const Finding& finding)
    {
        const FindingData& data = finding.data();
        QString comes;
        if (finding.disclosed)
            comes = QStringLiteral(", left and told");
        if (finding.undecided)
            comes = QStringLiteral(", undecided");
        return QStringLiteral("    %1 %2 %3: %4%5")
            .arg(finding.id.value)
            .arg(data.place.text, nameOf(data.condition),
                 finding.rule.isEmpty() ? QStringLiteral("no rule") : finding.rule, comes);
    }

    [[nodiscard]] static QString lineOf(const CarState& car, const Operation& operation)
    {
        QString line = QStringLiteral("    %1").arg(nameOfOperation(operation));
        QStringList findings;
        for (const FindingId id : operation.findings)
            findings.append(QString::number(id.value));
        if (!findings.isEmpty())
            line += QStringLiteral(" for %1").arg(list(findings));
        if (operation.origin == Origin::Baseline)
            return line;
        QStringList after;
        for (const OperationId id : comesFirst(car, operation))
            after.append(nameOfOperation(*car.operation(id)));
        if (!after.isEmpty())
            line += QStringLiteral("; after %1").arg(list(after));
        QStringList brings;
        for (const Trigger& trigger : operation.spec->triggers)
            if (fits(trigger.ifFact, car.facts))
                brings.append(trigger.opens);
        if (!brings.isEmpty())
            line += QStringLiteral("; brings %1").arg(list(brings));
        return line;
    }

    [[nodiscard]] QStringList holdLines(const CarState& car)
    {
        std::map<HoldKind, QStringList> kinds;
        for (const Hold& hold : m_bench.holds(m_id)) {
            QString what;
            if (hold.kind == HoldKind::SafetyPlaceNotSeen)
                what = hold.place.text;
            else if (hold.kind == HoldKind::UndecidedFinding)
                what = QString::number(hold.finding.value);
            else if (const Operation* operation = car.operation(hold.operation))
                what = nameOfOperation(*operation);
            kinds[hold.kind].append(what);
        }
        QStringList lines;
        for (const auto& [kind, what] : kinds)
            lines.append(QStringLiteral("    %1: %2").arg(nameOf(kind), list(what)));
        return lines;
    }

    Workbench m_bench;
    CarId m_id;
};

} // namespace

FindingData findingOf(const QStringList& given)
{
    FindingData data;
    QStringList words = given.mid(0, given.indexOf(QStringLiteral("if")));
    if (!given.contains(QStringLiteral("if")))
        words = given;
    data.place = PlaceId{words.value(0)};
    const auto condition = fromName<Condition>(words.value(1));
    if (placeInfo(data.place) == nullptr || !condition)
        return {};
    data.condition = *condition;
    for (qsizetype i = 2; i < words.size(); ++i) {
        const QString& word = words.at(i);
        if (const auto severity = fromName<Severity>(word))
            data.severity = severity;
        else if (const auto remedy = fromName<Remedy>(word))
            data.remedies.push_back(*remedy);
        else if (word == QStringLiteral("size"))
            data.sizeMm = words.value(++i).toInt();
        else if (word == QStringLiteral("count"))
            data.count = words.value(++i).toInt();
        else if (word == QStringLiteral("tread"))
            data.treadTenthsMm = words.value(++i).toInt();
        else
            return {};
    }
    return data;
}

QString outcomeOf(const QString& upper)
{
    Player player;
    player.play(upper);
    return player.outcome();
}

} // namespace ramplight::test
