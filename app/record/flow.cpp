// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/flow.h"

#include "domain/say.h"
#include "record/papertype.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

// Rows up to this many lines are never cut.
constexpr qsizetype wholeRow = 10;
constexpr double longestTogether = 100 * mm;
constexpr double asideWidth = 52 * mm;
constexpr double widestShot = 64 * mm;
constexpr double betweenShots = 4 * mm;
constexpr double goesOnHeight = 6.5 * mm; ///< of the line that says what a page goes on with

class Mover
{
public:
    explicit Mover(QPointF by)
        : m_by(by)
    {
    }
    void operator()(Text& item) const { item.baseline += m_by; }
    void operator()(Rule& item) const { item.line.translate(m_by); }
    void operator()(Box& item) const { item.box.translate(m_by); }
    void operator()(Hatch& item) const { item.box.translate(m_by); }
    void operator()(Photo& item) const { item.box.translate(m_by); }
    void operator()(Car& item) const { item.box.translate(m_by); }
    void operator()(Swatch& item) const { item.box.translate(m_by); }
    void operator()(Leader& item) const { item.line.translate(m_by); }
    void operator()(Badge& item) const { item.centre += m_by; }
    void operator()(Code& item) const { item.box.translate(m_by); }
    void operator()(Anchor& item) const { item.at += m_by; }

private:
    QPointF m_by;
};

const Anchor* anchorOf(const Block& block)
{
    for (const Item& item : block.items)
        if (const auto* anchor = std::get_if<Anchor>(&item))
            return anchor;
    return nullptr;
}

/// Fills pages from top to bottom. A page that begins within a section says which.
class Filler
{
public:
    explicit Filler(double firstTop)
        : m_y(firstTop)
    {
        m_pages.emplace_back();
    }

    /// What belongs together: on one page, as long as a page can hold it.
    void place(const std::vector<const Block*>& group)
    {
        double height = 0;
        for (const Block* block : group)
            height += block->height;
        const bool isGap = group.size() == 1 && group.front()->isGap;
        if (m_y + height > bottom && !m_fresh && !isGap &&
            height <= bottom - pageTop - goesOnHeight)
            turnWithin(*group.front());
        for (const Block* block : group) {
            if (block->turnsPage) {
                turn();
            } else if (block->isGap) {
                if (!block->items.empty())
                    m_item.clear(); // a line between rows ends what is above it
                if (!m_fresh)
                    add(*block);
            } else {
                if (m_y + block->height > bottom && !m_fresh)
                    turnWithin(*block);
                add(*block);
                m_fresh = false;
            }
        }
    }

    [[nodiscard]] std::vector<Page> take() { return std::move(m_pages); }

private:
    void add(const Block& block)
    {
        if (const Anchor* anchor = anchorOf(block)) {
            m_item.clear();
            (anchor->level == 1 ? m_section : m_item) = anchor->title;
        }
        if (m_y + block.height <= bottom || !block.isGap)
            for (const Item& item : block.items)
                m_pages.back().push_back(moved(item, {margin, m_y}));
        m_y += block.height;
    }

    void turn()
    {
        m_pages.emplace_back();
        m_y = pageTop;
        m_fresh = true;
    }

    /// next: what the new page begins with.
    void turnWithin(const Block& next)
    {
        turn();
        const Anchor* anchor = anchorOf(next);
        if (m_section.isEmpty() || (anchor != nullptr && anchor->level == 1))
            return;
        const QString of = anchor != nullptr || m_item.isEmpty()
                               ? m_section
                               : QStringLiteral("%1 · %2").arg(m_section, m_item);
        m_pages.back().emplace_back(
            paper::Text{{margin, m_y + ascent(Type::Small)},
                        linesOf(say("%1, continued").arg(of), Type::Small, column).front(),
                        Type::Small,
                        Tone::Muted});
        m_y += goesOnHeight;
    }

    std::vector<Page> m_pages;
    double m_y;
    bool m_fresh = false;
    QString m_section;
    QString m_item; ///< of the section
};

} // namespace

double shotWidth(double x, std::size_t count)
{
    const double many = double(std::max<std::size_t>(1, count));
    return std::min(widestShot, (column - x - (many - 1) * betweenShots) / many);
}

Item moved(Item item, QPointF by)
{
    std::visit(Mover(by), item);
    return item;
}

void Flow::gap(double height)
{
    m_told.emplace_back(told::Gap{height});
    space(height);
}

void Flow::space(double height)
{
    m_blocks.push_back({height, {}, false, true});
}

void Flow::turnPage()
{
    m_told.emplace_back(told::PageEnd{});
    m_blocks.push_back({0, {}, false, true, true});
}

void Flow::rule(bool keepWithNext)
{
    m_told.emplace_back(told::Line{});
    m_blocks.push_back(
        {1.6 * mm, {Rule{QLineF(0, 0.8 * mm, column, 0.8 * mm)}}, keepWithNext, !keepWithNext});
}

void Flow::heading(const QString& text, double above)
{
    m_told.emplace_back(told::Heading{text, {}, 1});
    space(above);
    const double high = lineHeight(Type::Heading);
    m_blocks.push_back(
        {high + 2.6 * mm,
         {Anchor{{0, 0}, text, 1},
          paper::Text{{0, ascent(Type::Heading)}, text, Type::Heading, Tone::Ink},
          Rule{QLineF(0, high + 0.6 * mm, column, high + 0.6 * mm), 0.3 * mm, Tone::Ink}},
         true,
         false});
}

void Flow::subheading(const QString& text, const QString& aside)
{
    m_told.emplace_back(told::Heading{text, aside, 2});
    const std::size_t first = m_blocks.size();
    std::vector<Cell> cells{{0, column - asideWidth - 4 * mm, text, Type::Bold}};
    if (!aside.isEmpty())
        cells.push_back({column - asideWidth, asideWidth, aside, Type::Small, Tone::Muted, true});
    lines(cells, true);
    m_blocks.at(first).items.emplace_back(Anchor{{0, 0}, text, 2});
}

void Flow::text(const QString& text, Type type, Tone tone)
{
    row({{0, column, text, type, tone}});
}

void Flow::row(const std::vector<Cell>& cells, bool keepWithNext)
{
    m_told.emplace_back(told::Row{cells});
    lines(cells, keepWithNext);
}

void Flow::shots(double x, const std::vector<Shot>& shots)
{
    m_told.emplace_back(told::Shots{x, shots});
    Block block;
    double at = x;
    const double top = 1.2 * mm;
    const double width = shotWidth(x, shots.size());
    const double height = width * 3 / 4;
    for (const Shot& shot : shots) {
        block.items.emplace_back(Photo{QRectF(at, top, width, height), shot.photo, shot.gone});
        double y = top + height + 0.6 * mm;
        for (const QString& line : linesOf(shot.caption, Type::Small, width)) {
            block.items.emplace_back(
                paper::Text{{at, y + ascent(Type::Small)}, line, Type::Small, Tone::Muted});
            y += lineHeight(Type::Small);
        }
        block.height = std::max(block.height, y + 1 * mm);
        at += width + betweenShots;
    }
    m_blocks.push_back(std::move(block));
}

void Flow::drawing(const Block& block, const QString& words)
{
    m_told.emplace_back(told::Drawing{block, words});
    m_blocks.push_back(block);
}

void Flow::lines(const std::vector<Cell>& cells, bool keepWithNext)
{
    std::vector<QStringList> lines;
    qsizetype most = 0;
    double high = 0;
    double down = 0;
    for (const Cell& cell : cells) {
        lines.push_back(cell.text.isEmpty() ? QStringList()
                                            : linesOf(cell.text, cell.type, cell.width));
        most = std::max(most, lines.back().size());
        high = std::max(high, lineHeight(cell.type));
        down = std::max(down, ascent(cell.type));
    }
    for (qsizetype i = 0; i < most; ++i) {
        Block block{high, {}, false, false};
        for (std::size_t c = 0; c < cells.size(); ++c) {
            if (i >= lines[c].size())
                continue;
            const Cell& cell = cells[c];
            const QString& line = lines[c].at(i);
            const double in = cell.toTheRight ? cell.width - widthOf(line, cell.type) : 0;
            block.items.emplace_back(paper::Text{{cell.x + in, down}, line, cell.type, cell.tone});
        }
        const bool last = i + 1 == most;
        // A long row may be cut, but two lines stay on either side.
        block.keepWithNext = last ? keepWithNext : most <= wholeRow || i == 0 || i + 2 == most;
        m_blocks.push_back(std::move(block));
    }
}

void Flow::keepWithNext()
{
    if (!m_blocks.empty())
        m_blocks.back().keepWithNext = true;
}

void Flow::keepTogether(std::size_t begin)
{
    double height = 0;
    for (std::size_t i = begin; i < m_blocks.size(); ++i)
        height += m_blocks[i].height;
    if (height > longestTogether)
        return;
    for (std::size_t i = begin; i + 1 < m_blocks.size(); ++i)
        m_blocks[i].keepWithNext = true;
}

std::vector<Page> Flow::pages(double firstTop) const
{
    Filler filler(firstTop);
    std::vector<const Block*> group;
    for (const Block& block : m_blocks) {
        group.push_back(&block);
        if (block.keepWithNext)
            continue;
        filler.place(group);
        group.clear();
    }
    filler.place(group);
    return filler.take();
}

} // namespace ramplight::paper
