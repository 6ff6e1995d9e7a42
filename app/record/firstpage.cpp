// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/firstpage.h"

#include "domain/words.h"
#include "record/carplan.h"
#include "record/papertype.h"
#include "record/recordwords.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>

namespace ramplight::paper {

namespace {

constexpr double planWidth = 68 * mm;
constexpr double planHeight = 97 * mm;
constexpr double gutter = 8 * mm;
constexpr double leftWidth = column - planWidth - gutter;
constexpr qsizetype holdsInFront = 5;

QString say(const char* text)
{
    return QCoreApplication::translate("ramplight", text);
}

/// Writes down the left column.
class Column
{
public:
    Column(Page& page, double y)
        : m_page(page)
        , m_y(y)
    {
    }

    void text(const QString& text, Type type, Tone tone = Tone::Ink, double x = 0,
              double width = leftWidth)
    {
        for (const QString& line : linesOf(text, type, width)) {
            m_page.push_back(Text{{margin + x, m_y + ascent(type)}, line, type, tone});
            m_y += lineHeight(type);
        }
    }
    void gap(double height) { m_y += height; }
    [[nodiscard]] double y() const { return m_y; }

    /// A label above its value, two to a row.
    void facts(const std::vector<std::pair<QString, QString>>& facts)
    {
        const double half = leftWidth / 2;
        for (std::size_t i = 0; i < facts.size(); i += 2) {
            const double begin = m_y;
            double end = m_y;
            for (std::size_t k = i; k < std::min(i + 2, facts.size()); ++k) {
                m_y = begin;
                const double x = k == i ? 0 : half;
                text(facts[k].first, Type::Small, Tone::Muted, x, half - 3 * mm);
                text(facts[k].second, Type::Body, Tone::Ink, x, half - 3 * mm);
                end = std::max(end, m_y);
            }
            m_y = end + 1.4 * mm;
        }
    }

private:
    Page& m_page;
    double m_y;
};

QString odometerWords(const CarFacts& facts)
{
    return QStringLiteral("%1 %2").arg(QLocale().toString(facts.odometer),
                                       facts.odometerUnit == DistanceUnit::Miles ? say("miles")
                                                                                 : say("km"));
}

std::vector<std::pair<QString, QString>> factsOf(const RecordModel& model)
{
    const RecordTimes times(model.rules.timeZone);
    const Identity& car = model.identity;
    std::vector<std::pair<QString, QString>> facts;
    const auto add = [&](const QString& label, const QString& value) {
        if (!value.isEmpty())
            facts.emplace_back(label, value);
    };
    add(say("VIN"), car.vin);
    QString body = words(car.shape);
    if (!car.colour.isEmpty())
        body += QStringLiteral(", %1").arg(car.colour);
    if (!car.paintCode.isEmpty())
        body += say(", paint code %1").arg(car.paintCode);
    add(say("Body and colour"), capital(body));
    add(say("Odometer on arrival"), odometerWords(model.facts));
    add(say("Keys"), QString::number(model.facts.keys));
    QStringList has;
    for (const Fact fact : model.facts.has)
        has.append(words(fact));
    add(say("Drive and equipment"), capital(has.join(QStringLiteral(", "))));
    if (model.facts.testCertificateMonths)
        add(say("Test certificate on arrival"),
            *model.facts.testCertificateMonths == 1
                ? say("1 month left")
                : say("%1 months left").arg(*model.facts.testCertificateMonths));
    add(say("Came in"), times.full(model.arrivedAt));
    if (model.status != CarStatus::Released && model.promised.isValid())
        add(say("Promised for"), RecordTimes::date(model.promised));
    return facts;
}

/// The state: word, sentence, and the first holds; its edge has the shape that the wall uses.
void addStatus(Page& page, Column& left, const RecordModel& model)
{
    const double begin = left.y();
    const bool released = model.status == CarStatus::Released;
    const bool withdrawn = model.status == CarStatus::Withdrawn;
    const double in = released || withdrawn ? 4 * mm : 8 * mm;
    const double width = leftWidth - in - (released ? 10 * mm : 4 * mm);
    left.gap(2.6 * mm);
    left.text(statusTitle(model), Type::Lead, released ? Tone::Accent : Tone::Ink, in, width);
    left.text(statusSentence(model), Type::Body, Tone::Ink, in, width);
    qsizetype shown = 0;
    for (const RecordHold& hold : model.holds) {
        if (shown++ == holdsInFront) {
            left.text(
                say("and %1 more, listed below").arg(qsizetype(model.holds.size()) - holdsInFront),
                Type::Small, Tone::Muted, in, width);
            break;
        }
        left.text(QStringLiteral("– %1").arg(hold.words), Type::Small, Tone::Ink, in, width);
    }
    left.gap(2.4 * mm);
    const QRectF box(margin, begin, leftWidth, left.y() - begin);
    page.push_back(Box{box, released ? Tone::Accent : Tone::Ink, 0.35 * mm, withdrawn, released});
    if (!released && !withdrawn)
        page.push_back(Hatch{QRectF(box.left(), box.top(), 4.5 * mm, box.height())});
}

struct Count
{
    QString number;
    QString label;
};

std::vector<Count> countsOf(const RecordModel& model)
{
    const auto with = [&](FindingOutcome outcome) {
        return std::ranges::count_if(model.findings, [&](const RecordFinding& finding) {
            return outcomeOf(model, finding) == outcome;
        });
    };
    const auto done = with(FindingOutcome::Done);
    const auto left = with(FindingOutcome::Left);
    const auto open = with(FindingOutcome::Open);
    qsizetype safety = 0;
    qsizetype closed = 0;
    for (const RecordOperation& operation : model.operations)
        if (operation.safety && operation.state != OperationState::Withdrawn) {
            ++safety;
            closed += operation.state == OperationState::Closed ? 1 : 0;
        }
    std::vector<Count> counts{{QString::number(done + left + open), say("found")},
                              {QString::number(done), say("dealt with")},
                              {QString::number(left), say("left as it is")}};
    if (open > 0)
        counts.push_back({QString::number(open), say("not finished")});
    counts.push_back(
        {closed == safety ? QString::number(closed) : say("%1 of %2").arg(closed).arg(safety),
         say("safety items closed")});
    return counts;
}

void addCounts(Page& page, Column& left, const RecordModel& model)
{
    const std::vector<Count> counts = countsOf(model);
    const double step = leftWidth / double(counts.size());
    const double y = left.y();
    double high = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const double x = margin + double(i) * step;
        page.push_back(
            Text{{x, y + ascent(Type::Heading)}, counts[i].number, Type::Heading, Tone::Ink});
        double down = lineHeight(Type::Heading);
        for (const QString& line : linesOf(counts[i].label, Type::Small, step - 2 * mm)) {
            page.push_back(
                Text{{x, y + down + ascent(Type::Small)}, line, Type::Small, Tone::Muted});
            down += lineHeight(Type::Small);
        }
        high = std::max(high, down);
    }
    left.gap(high);
}

void addLegend(Page& page, double x, double y)
{
    const double side = 3.2 * mm;
    const std::vector<std::pair<OutlineMark, QString>> entries{
        {OutlineMark::Hollow, say("dealt with")},
        {OutlineMark::Filled, say("still there")},
        {OutlineMark::Stippled, say("not looked at")}};
    for (const auto& [mark, text] : entries) {
        page.push_back(Swatch{QRectF(x, y, side, side), mark});
        page.push_back(Text{{x + side + 2 * mm, y + 2.5 * mm}, text, Type::Small, Tone::Muted});
        y += 4.4 * mm;
    }
}

} // namespace

double addFront(Page& page, const RecordModel& model)
{
    const RecordTimes times(model.rules.timeZone);
    double y = 14 * mm;
    page.push_back(Text{{margin, y + 3 * mm}, say("Handover record"), Type::Lead, Tone::Ink});
    const QString made =
        QStringLiteral("%1 · %2").arg(model.site, say("made %1").arg(times.full(model.madeAt)));
    page.push_back(Text{{margin + column - widthOf(made, Type::Small), y + 3 * mm},
                        made,
                        Type::Small,
                        Tone::Muted});
    y += 5.4 * mm;
    page.push_back(Rule{QLineF(margin, y, margin + column, y), 0.5 * mm, Tone::Ink});
    y += 2.6 * mm;
    if (model.demo) {
        const QString text = say("Demo workshop: car, people and everything in this record are "
                                 "made up.");
        const double high = 6.4 * mm;
        page.push_back(Box{QRectF(margin, y, column, high), Tone::Ink, 0.3 * mm, true});
        page.push_back(Text{{margin + 3 * mm, y + 4.3 * mm}, text, Type::Bold, Tone::Ink});
        y += high + 2.6 * mm;
    }
    const double planLeft = margin + leftWidth + gutter;
    const QRectF plan(planLeft, y + 1 * mm, planWidth, planHeight);
    addCarPlan(page, model, plan);
    addLegend(page, planLeft + 4 * mm, plan.bottom() + 3 * mm);

    Column left(page, y);
    left.text(model.identity.stockNumber, Type::Title);
    QString name = carName(model.identity);
    if (!model.identity.registration.isEmpty())
        name += QStringLiteral(" · %1").arg(model.identity.registration);
    left.text(name, Type::Lead);
    left.gap(3 * mm);
    addStatus(page, left, model);
    left.gap(4 * mm);
    addCounts(page, left, model);
    left.gap(3.4 * mm);
    left.facts(factsOf(model));
    return std::max(left.y(), plan.bottom() + 16 * mm);
}

} // namespace ramplight::paper
