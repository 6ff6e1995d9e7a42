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
    bool turnsPage = false;    ///< what comes next begins a page
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

/// A photo with what stands under it.
struct Shot
{
    PhotoId photo;
    QString caption;
    QString gone = {}; ///< words in its place: no picture is kept any more
};

/// How wide each photo of a row is that begins at x: before and after of one thing are as large as
/// leaves a page two rows and more. They stand in frames of 4 to 3.
[[nodiscard]] double shotWidth(double x, std::size_t count);

// What a flow holds, in its order and words, for a writer that has no pages.
namespace told {
struct Heading
{
    QString text;
    QString aside; ///< at its right
    int level = 1; ///< as that of an Anchor
};
struct Row
{
    std::vector<Cell> cells;
};
struct Line
{
};
struct Gap
{
    double height = 0;
};
struct Shots
{
    double x = 0;
    std::vector<Shot> shots; ///< side by side
};
struct Drawing
{
    Block block;
    QString words; ///< what it shows, for who cannot see it
};
struct PageEnd
{
};
} // namespace told
using Told = std::variant<told::Heading, told::Row, told::Line, told::Gap, told::Shots,
                          told::Drawing, told::PageEnd>;

/// Strips one below the other, cut into pages where that reads well: no heading at a page's foot,
/// no single line of a paragraph alone. A page that begins within a section says which.
class Flow
{
public:
    void gap(double height);
    /// A thin line between rows; none at a page's head.
    void rule(bool keepWithNext = false);
    void heading(const QString& text, double above = 7 * mm);
    /// Of an item within a section; stays with what comes next.
    void subheading(const QString& text, const QString& aside);
    void text(const QString& text, Type type = Type::Body, Tone tone = Tone::Ink);
    /// Cells side by side, each wrapped in its own width. Short rows stay whole.
    void row(const std::vector<Cell>& cells, bool keepWithNext = false);
    /// Photos side by side with their captions.
    void shots(double x, const std::vector<Shot>& shots);
    /// words: what it shows.
    void drawing(const Block& block, const QString& words);
    void turnPage();
    /// What was added last stays with what comes next.
    void keepWithNext();

    /// How much has been added; for keepTogether().
    [[nodiscard]] std::size_t size() const { return m_blocks.size(); }
    /// All since `begin` on one page, unless it is longer than a good third of one.
    void keepTogether(std::size_t begin);

    /// Begins at firstTop on the first page, which may hold something above.
    [[nodiscard]] std::vector<Page> pages(double firstTop) const;
    [[nodiscard]] const std::vector<Told>& told() const { return m_told; }

private:
    void space(double height);
    void lines(const std::vector<Cell>& cells, bool keepWithNext);

    std::vector<Block> m_blocks;
    std::vector<Told> m_told;
};

} // namespace ramplight::paper
