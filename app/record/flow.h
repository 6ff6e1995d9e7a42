// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/paper.h"

namespace ramplight::paper {

/// A strip as wide as the column that is never cut. Its items lie from (0, 0) on.
struct Block
{
    double height = 0;
    std::vector<Item> items;
    bool keepWithNext = false; ///< no page ends after it
    bool isGap = false;        ///< no page begins with it
};

/// Text in one column of a row.
struct Cell
{
    double x = 0;
    double width = column;
    QString text;
    Type type = Type::Body;
    Tone tone = Tone::Ink;
    bool toTheRight = false; ///< ends at the cell's right edge
};

/// Strips one below the other, cut into pages where that reads well: no heading at a page's foot,
/// no single line of a paragraph alone.
class Flow
{
public:
    void gap(double height);
    /// A thin line between rows; none at a page's head.
    void rule(bool keepWithNext = false);
    void heading(const QString& text);
    void text(const QString& text, Type type = Type::Body, Tone tone = Tone::Ink);
    /// Cells side by side, each wrapped in its own width. Short rows stay whole.
    void row(const std::vector<Cell>& cells, bool keepWithNext = false);
    void block(Block block) { m_blocks.push_back(std::move(block)); }
    /// What was added last stays with what comes next.
    void keepWithNext();

    /// How much has been added; for keepTogether().
    [[nodiscard]] std::size_t size() const { return m_blocks.size(); }
    /// All since `begin` on one page, unless it is longer than a good third of one.
    void keepTogether(std::size_t begin);

    /// Begins at firstTop on the first page, which may hold something above.
    [[nodiscard]] std::vector<Page> pages(double firstTop) const;

private:
    std::vector<Block> m_blocks;
};

} // namespace ramplight::paper
