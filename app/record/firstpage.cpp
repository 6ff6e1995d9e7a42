// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/firstpage.h"

#include "domain/say.h"
#include "record/carplan.h"
#include "record/frontwords.h"
#include "record/papertype.h"
#include "record/recordparts.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

constexpr double planWidth = 86 * mm;
constexpr double planHeight = 82 * mm;
constexpr double codeSide = 25 * mm;
constexpr double gutter = 8 * mm;
constexpr double leftWidth = column - planWidth - gutter;

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
            m_page.emplace_back(Text{{margin + x, m_y + ascent(type)}, line, type, tone});
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
    for (const QString& hold : frontHolds(model))
        left.text(hold, Type::Small, hold.startsWith(QChar(0x2013)) ? Tone::Ink : Tone::Muted, in,
                  width);
    left.gap(2.4 * mm);
    const QRectF box(margin, begin, leftWidth, left.y() - begin);
    page.emplace_back(
        Box{box, released ? Tone::Accent : Tone::Ink, 0.35 * mm, withdrawn, released});
    if (!released && !withdrawn)
        page.emplace_back(Hatch{QRectF(box.left(), box.top(), 4.5 * mm, box.height())});
}

void addCounts(Page& page, Column& left, const RecordModel& model)
{
    const std::vector<FrontCount> counts = countsOf(model);
    const double step = leftWidth / double(counts.size());
    const double y = left.y();
    double high = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const double x = margin + double(i) * step;
        page.emplace_back(
            Text{{x, y + ascent(Type::Heading)}, counts[i].number, Type::Heading, Tone::Ink});
        double down = lineHeight(Type::Heading);
        for (const QString& line : linesOf(counts[i].label, Type::Small, step - 2 * mm)) {
            page.emplace_back(
                Text{{x, y + down + ascent(Type::Small)}, line, Type::Small, Tone::Muted});
            down += lineHeight(Type::Small);
        }
        high = std::max(high, down);
    }
    left.gap(high);
}

/// In one row under the drawing.
void addLegend(Page& page, double x, double y)
{
    const double side = 3.2 * mm;
    for (const auto& [mark, text] : frontLegend()) {
        page.emplace_back(Swatch{QRectF(x, y, side, side), mark});
        page.emplace_back(
            Text{{x + side + 1.6 * mm, y + 2.5 * mm}, text, Type::Small, Tone::Muted});
        x += side + 4.6 * mm + widthOf(text, Type::Small);
    }
}

/// The code with its words at its right, from x on.
void addCode(Page& page, const RecordModel& model, QPointF corner)
{
    // The quiet zone of a code is white: pulled over the edge, its modules stand in the column.
    const double quiet = codeSide * 0.06;
    page.emplace_back(Code{QRectF(corner - QPointF(quiet, quiet), QSizeF(codeSide, codeSide)),
                           stampCode(stampOf(model))});
    Column beside(page, corner.y());
    const double in = corner.x() - margin + codeSide + 1 * mm;
    const double width = leftWidth - codeSide - 1 * mm;
    beside.text(say("Fingerprint"), Type::Small, Tone::Muted, in, width);
    beside.text(model.fingerprint, Type::SmallBold, Tone::Ink, in, width);
    beside.gap(1 * mm);
    beside.text(frontCodeWords(), Type::Small, Tone::Muted, in, width);
}

} // namespace

double addFront(Page& page, const RecordModel& model)
{
    double y = 14 * mm;
    page.emplace_back(Anchor{{margin, y}, say("For the buyer"), 1});
    page.emplace_back(Text{{margin, y + 3 * mm}, frontTitle(), Type::Lead, Tone::Ink});
    const QString made = frontMade(model);
    page.emplace_back(Text{{margin + column - widthOf(made, Type::Small), y + 3 * mm},
                           made,
                           Type::Small,
                           Tone::Muted});
    y += 5.4 * mm;
    page.emplace_back(Rule{QLineF(margin, y, margin + column, y), 0.5 * mm, Tone::Ink});
    y += 2.6 * mm;
    if (const QString text = frontDemo(model); !text.isEmpty()) {
        const double high = 6.4 * mm;
        page.emplace_back(Box{QRectF(margin, y, column, high), Tone::Ink, 0.3 * mm, true});
        page.emplace_back(Text{{margin + 3 * mm, y + 4.3 * mm}, text, Type::Bold, Tone::Ink});
        y += high + 2.6 * mm;
    }
    const double planLeft = margin + leftWidth + gutter;
    const QRectF plan(planLeft, y + 1 * mm, planWidth, planHeight);
    addCarPlan(page, model, plan);
    addLegend(page, planLeft + 4 * mm, plan.bottom() + 2.4 * mm);
    page.emplace_back(Text{
        {planLeft + 4 * mm, plan.bottom() + 9.4 * mm}, frontTyreWords(), Type::Small, Tone::Muted});

    Column left(page, y);
    left.text(model.identity.stockNumber, Type::Title);
    left.text(frontName(model), Type::Lead);
    left.gap(3 * mm);
    addStatus(page, left, model);
    left.gap(4 * mm);
    addCounts(page, left, model);
    left.gap(3.4 * mm);
    left.facts(factsOf(model));
    // Where it makes the top no higher, or least.
    const double legendEnd = plan.bottom() + 10 * mm;
    const double underFacts = left.y() + 1.6 * mm;
    const double underPlan = legendEnd + 2.4 * mm;
    const bool atLeft = underFacts <= underPlan;
    addCode(page, model,
            atLeft ? QPointF(margin, underFacts) : QPointF(planLeft + 4 * mm, underPlan));
    return std::max(atLeft ? underFacts + codeSide : left.y(),
                    atLeft ? legendEnd : underPlan + codeSide);
}

} // namespace ramplight::paper
