// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/spokenwords.h"

#include "kiosk/timewords.h"

#include <algorithm>
#include <set>

namespace ramplight {

namespace {

/// Captions come in handfuls of words: as many make a row as are read at a glance.
constexpr int rowLength = 150;
/// Text without captions is cut at a space before it is longer.
constexpr int longestRow = 260;

} // namespace

SpokenWords::SpokenWords(QObject* parent)
    : QAbstractListModel(parent)
{
}

void SpokenWords::setText(SpokenText text)
{
    beginResetModel();
    m_text = std::move(text);
    cut();
    endResetModel();
    emit countChanged();
}

void SpokenWords::cut()
{
    m_rows.clear();
    const int end = static_cast<int>(m_text.text.size());
    const auto add = [&](int first, int last, int seconds) {
        while (last - first > longestRow) {
            const int space =
                static_cast<int>(m_text.text.lastIndexOf(QLatin1Char(' '), first + rowLength));
            const int cutAt = space > first ? space : first + rowLength;
            m_rows.push_back({first, cutAt, seconds});
            first = cutAt;
        }
        if (!QStringView(m_text.text).mid(first, last - first).trimmed().isEmpty())
            m_rows.push_back({first, last, seconds});
    };
    int first = 0;
    int seconds = m_text.pieces.empty() ? -1 : m_text.pieces.front().seconds;
    for (const SpokenText::Piece& piece : m_text.pieces) {
        if (piece.first - first < rowLength)
            continue;
        add(first, piece.first, seconds);
        first = piece.first;
        seconds = piece.seconds;
    }
    add(first, end, seconds);
}

void SpokenWords::setDecisions(const std::vector<DraftDecision>& decisions, int chosen)
{
    std::vector<DraftEnd> ends;
    for (const DraftDecision& decision : decisions)
        ends.push_back(decision.end);
    if (ends == m_ends && chosen == m_chosen)
        return;
    m_ends = std::move(ends);
    m_chosen = chosen;
    if (!m_rows.empty())
        emit dataChanged(index(0), index(count() - 1), {Markup});
}

int SpokenWords::rowOf(int draft) const
{
    if (draft < 0 || draft >= static_cast<int>(m_text.draftFirst.size()))
        return -1;
    const int first = m_text.draftFirst[static_cast<std::size_t>(draft)];
    const auto row = std::ranges::find_if(
        m_rows, [&](const Row& r) { return r.first <= first && first < r.last; });
    return row == m_rows.end() ? -1 : static_cast<int>(row - m_rows.begin());
}

int SpokenWords::draftAfter(int draft, int row) const
{
    if (row < 0 || row >= count())
        return -1;
    const Row& at = m_rows[static_cast<std::size_t>(row)];
    std::vector<int> here;
    for (std::size_t i = 0; i < m_text.draftFirst.size(); ++i)
        if (m_text.draftFirst[i] < at.last && m_text.draftLast[i] > at.first)
            here.push_back(static_cast<int>(i));
    if (here.empty())
        return -1;
    const auto now = std::ranges::find(here, draft);
    return now == here.end() || now + 1 == here.end() ? here.front() : *(now + 1);
}

int SpokenWords::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : count();
}

QHash<int, QByteArray> SpokenWords::roleNames() const
{
    return {{MomentWords, "momentWords"}, {Markup, "markup"}};
}

QVariant SpokenWords::data(const QModelIndex& index, int role) const
{
    if (index.row() < 0 || index.row() >= count())
        return {};
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == MomentWords)
        return row.seconds < 0 ? QString() : recordingWords(row.seconds);
    return role == Markup ? markupOf(row) : QVariant();
}

int SpokenWords::draftAt(int position) const
{
    // Quotes may lie in each other: the chosen one shows, then one that waits.
    int found = -1;
    for (std::size_t i = 0; i < m_text.draftFirst.size(); ++i) {
        if (position < m_text.draftFirst[i] || position >= m_text.draftLast[i])
            continue;
        const int draft = static_cast<int>(i);
        if (draft == m_chosen)
            return draft;
        if (found < 0 || (i < m_ends.size() && m_ends[i] == DraftEnd::Open))
            found = draft;
    }
    return found;
}

QString SpokenWords::classOf(int draft) const
{
    if (draft == m_chosen)
        return QStringLiteral("c");
    const auto at = static_cast<std::size_t>(draft);
    const DraftEnd end = at < m_ends.size() ? m_ends[at] : DraftEnd::Open;
    return end == DraftEnd::Open      ? QStringLiteral("o")
           : end == DraftEnd::Dropped ? QStringLiteral("x")
                                      : QStringLiteral("d");
}

QString SpokenWords::markupOf(const Row& row) const
{
    // Where anything begins or ends in this row.
    std::set<int> cuts{row.first, row.last};
    const auto cutAt = [&](int position) {
        if (position > row.first && position < row.last)
            cuts.insert(position);
    };
    for (std::size_t i = 0; i < m_text.draftFirst.size(); ++i) {
        cutAt(m_text.draftFirst[i]);
        cutAt(m_text.draftLast[i]);
    }
    auto mark =
        std::ranges::lower_bound(m_text.marks, row.first, {}, [](const auto& m) { return m.last; });
    for (auto it = mark; it != m_text.marks.end() && it->first < row.last; ++it) {
        cutAt(it->first);
        cutAt(it->last);
    }
    QString markup;
    for (auto from = cuts.begin(); std::next(from) != cuts.end(); ++from) {
        const int end = *std::next(from);
        QString words = m_text.text.mid(*from, end - *from).toHtmlEscaped();
        while (mark != m_text.marks.end() && mark->last <= *from)
            ++mark;
        if (mark != m_text.marks.end() && mark->first <= *from)
            words = QStringLiteral("<span class=\"k\">%1</span>").arg(words);
        if (const int draft = draftAt(*from); draft >= 0)
            words = QStringLiteral("<a class=\"%1\" href=\"%2\">%3</a>")
                        .arg(classOf(draft))
                        .arg(draft)
                        .arg(words);
        markup += words;
    }
    return markup.trimmed();
}

} // namespace ramplight
