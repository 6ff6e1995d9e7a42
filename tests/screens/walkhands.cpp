// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "walkhands.h"

#include <QQuickItem>

#include <algorithm>
#include <optional>

namespace ramplight::test {

namespace {

/// Where on the drawing a place is touched most surely: the point of its box around which the
/// widest cross of other points gives the same place.
std::optional<QPointF> surest(QQuickItem* outline, const QString& place)
{
    QRectF box;
    QMetaObject::invokeMethod(outline, "boxOf", Q_RETURN_ARG(QRectF, box), Q_ARG(QString, place));
    if (box.isEmpty())
        return std::nullopt;
    const auto hits = [&](QPointF at) {
        QString found;
        QMetaObject::invokeMethod(outline, "placeAt", Q_RETURN_ARG(QString, found),
                                  Q_ARG(double, at.x()), Q_ARG(double, at.y()), Q_ARG(double, 1.0));
        return found == place;
    };
    std::optional<QPointF> best;
    int widest = -1;
    constexpr int steps = 10;
    for (int row = 1; row < steps; ++row)
        for (int column = 1; column < steps; ++column) {
            const QPointF at(box.left() + box.width() * column / steps,
                             box.top() + box.height() * row / steps);
            int arms = 0;
            while (arms < 12 && hits(at + QPointF(3 * arms, 0)) &&
                   hits(at - QPointF(3 * arms, 0)) && hits(at + QPointF(0, 3 * arms)) &&
                   hits(at - QPointF(0, 3 * arms)))
                ++arms;
            if (arms > widest) {
                widest = arms;
                best = at;
            }
        }
    return widest > 0 ? best : std::nullopt;
}

} // namespace

bool WalkHands::touched(QQuickItem* item, Where where)
{
    QQuickItem* list = item;
    while (list != nullptr && !list->inherits("QQuickFlickable"))
        list = list->parentItem();
    const qreal before = list == nullptr ? 0 : list->property("contentY").toReal();
    if (!m_bench.tap(item, where))
        return false;
    // What had to be dragged into sight first cost a touch more.
    const bool dragged = list != nullptr && list->property("contentY").toReal() != before;
    m_touches += dragged ? 2 : 1;
    return true;
}

bool WalkHands::ready(Where where)
{
    return m_bench.until(
        [&] {
            return !m_bench.ofType("WalkRoundScreen").empty() && m_bench.shell().car()->loaded() &&
                   !m_bench.ofType("CarOutline").empty();
        },
        QStringLiteral("the walk-round"), where);
}

bool WalkHands::view(const char* viewId, Where where)
{
    const QString id = QString::fromLatin1(viewId);
    if (walk().view() == id)
        return true;
    return touched(m_bench.ofType("FilterTab", "viewId", id), where) &&
           m_bench.until([&] { return walk().view() == id; }, id, where);
}

bool WalkHands::place(const char* placeId, Where where)
{
    const QString id = QString::fromLatin1(placeId);
    const auto spots = m_bench.ofType("WalkRoundField");
    const auto field = std::ranges::find_if(spots, [&](const QQuickItem* item) {
        return item->parentItem()->property("placeId").toString() == id;
    });
    if (field != spots.end()) {
        if (!touched(*field, where))
            return false;
    } else {
        QQuickItem* outline = m_bench.ofType("CarOutline").back();
        const auto at = surest(outline, id);
        if (!m_bench.until([&] { return at.has_value(); }, QStringLiteral("a point of %1").arg(id),
                           where))
            return false;
        ++m_touches;
        m_bench.tapAt(outline->mapToScene(*at));
    }
    return m_bench.until([&] { return walk().place() == id; },
                         QStringLiteral("%1 instead of %2").arg(id, walk().place()), where);
}

QQuickItem* WalkHands::chip(const Choices* choices, const QString& id) const
{
    for (QQuickItem* chips : m_bench.ofType("WalkRoundChips")) {
        if (chips->property("choices").value<Choices*>() != choices)
            continue;
        for (QQuickItem* item : chips->childItems())
            if (item->isVisible() && item->property("choiceId").toString() == id)
                return item;
    }
    return nullptr;
}

bool WalkHands::pick(const Choices* choices, const QString& id, Where where)
{
    if (chip(choices, id) == nullptr)
        for (QQuickItem* chips : m_bench.ofType("WalkRoundChips"))
            if (chips->property("choices").value<Choices*>() == choices)
                for (QQuickItem* item : chips->childItems())
                    if (item->isVisible() && item->property("text") == QStringLiteral("More") &&
                        !touched(item, where))
                        return false;
    return m_bench.until([&] { return chip(choices, id) != nullptr; }, id, where) &&
           touched(chip(choices, id), where);
}

bool WalkHands::condition(Condition condition, Where where)
{
    const QString id = nameOf(condition);
    return pick(walk().conditions(), id, where) &&
           m_bench.until([&] { return walk().conditions()->current() == id; }, id, where);
}

bool WalkHands::severity(Severity severity, Where where)
{
    const QString id = nameOf(severity);
    return pick(walk().draft()->severities(), id, where) &&
           m_bench.until([&] { return walk().draft()->severities()->current() == id; }, id, where);
}

bool WalkHands::recorded(std::size_t before, Where where)
{
    return m_bench.until([&] { return m_bench.shell().car()->car().findings.size() > before; },
                         QStringLiteral("the finding"), where);
}

bool WalkHands::remedy(Remedy remedy, Where where)
{
    const std::size_t before = m_bench.shell().car()->car().findings.size();
    return pick(walk().remedies(), nameOf(remedy), where) && recorded(before, where);
}

bool WalkHands::advised(Where where)
{
    const std::size_t before = m_bench.shell().car()->car().findings.size();
    return m_bench.until([&] { return walk().remedies()->rowCount() > 0; },
                         QStringLiteral("remedies"), where) &&
           pick(walk().remedies(), walk().remedies()->rows().front().choiceId, where) &&
           recorded(before, where);
}

bool WalkHands::finding(const char* placeId, Condition what, Severity much, Where where)
{
    return place(placeId, where) && condition(what, where) && severity(much, where) &&
           advised(where);
}

bool WalkHands::restIsSound(Where where)
{
    // Readings are written while the next are entered: the count on the button falls with them.
    const auto standing = [&] {
        return static_cast<int>(m_bench.shell().car()->car().treads.size()) * 3 ==
               walk().tyres()->taken();
    };
    return m_bench.until(standing, QStringLiteral("the readings"), where) &&
           tap(QStringLiteral("All the rest here is sound: %1").arg(walk().leftHere()), where) &&
           m_bench.until([&] { return walk().leftHere() == 0; }, walk().view(), where);
}

bool WalkHands::tap(const QString& words, Where where)
{
    ++m_touches;
    return m_bench.tap(words, where);
}

bool WalkHands::digits(const QString& digits, Where where)
{
    m_touches += static_cast<int>(digits.size());
    return m_bench.type(digits, where);
}

} // namespace ramplight::test
