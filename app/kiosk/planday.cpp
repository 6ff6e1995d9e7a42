// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/planday.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ramplight {

namespace {

// Millimetres on the glass.
constexpr double laneGap = 1.5;
constexpr double bandWidth = 2.2;
constexpr double pinSize = 2.6;
constexpr double textInset = 2.2;
constexpr double leastWidth = 1.6;
constexpr double cornerRadius = 0.8;

constexpr int wrapped = int(Qt::TextWordWrap) | int(Qt::AlignLeft);

} // namespace

PlanDay::PlanDay(QQuickItem* parent)
    : QQuickPaintedItem(parent)
{
    setOpaquePainting(true);
    const auto again = [this] { update(); };
    connect(this, &PlanDay::dayChanged, this, again);
    connect(this, &PlanDay::lookChanged, this, again);
}

void PlanDay::setView(PlanView* view)
{
    if (m_view == view)
        return;
    if (m_view != nullptr)
        disconnect(m_view, nullptr, this, nullptr);
    m_view = view;
    if (m_view != nullptr)
        connect(m_view, &PlanView::changed, this, [this] { update(); });
    emit dayChanged();
}

void PlanDay::setJob(PlannedJob* job)
{
    if (m_job == job)
        return;
    if (m_job != nullptr)
        disconnect(m_job, nullptr, this, nullptr);
    m_job = job;
    if (m_job != nullptr)
        connect(m_job, &PlannedJob::changed, this, [this] { update(); });
    emit dayChanged();
}

void PlanDay::setDay(int day)
{
    if (m_day == day)
        return;
    m_day = day;
    emit dayChanged();
}

void PlanDay::setOfPeople(bool ofPeople)
{
    if (m_ofPeople == ofPeople)
        return;
    m_ofPeople = ofPeople;
    emit dayChanged();
}

const SheetDay* PlanDay::sheetDay() const
{
    if (m_view == nullptr || m_day < 0 || m_day >= m_view->days())
        return nullptr;
    return &m_view->sheet().days[static_cast<std::size_t>(m_day)];
}

QFont PlanDay::fontOf(int pixels, bool strong) const
{
    QFont font(m_fontFamily);
    font.setPixelSize(std::max(1, pixels));
    font.setBold(strong);
    return font;
}

double PlanDay::xOf(int minute) const
{
    const SheetDay* day = sheetDay();
    return width() * (minute - day->opens) / std::max(1, day->closes - day->opens);
}

QRectF PlanDay::boxOf(const SheetBar& bar) const
{
    const double left = xOf(bar.from);
    const double gap = laneGap * m_mm;
    return {left, m_headHeight + bar.lane * m_laneHeight + gap / 2,
            std::max(xOf(bar.to) - left - m_mm * 0.3, leastWidth * m_mm), m_laneHeight - gap};
}

void PlanDay::paint(QPainter* painter)
{
    painter->fillRect(QRectF(0, 0, width(), height()), m_ground);
    const SheetDay* day = sheetDay();
    if (day == nullptr)
        return;
    paintHours(*painter, *day);
    const int now = m_day == 0 ? m_view->nowMinute() : -1;
    if (now >= day->opens && now <= day->closes)
        painter->fillRect(
            QRectF(xOf(now) - m_mm * 0.4, m_headHeight - 2 * m_mm, m_mm * 0.8, height()),
            m_groundInk);
    for (const SheetBar& bar : m_view->sheet().bars(m_ofPeople)[static_cast<std::size_t>(m_day)])
        paintBar(*painter, bar);
}

void PlanDay::paintHours(QPainter& painter, const SheetDay& day) const
{
    const auto lanes = static_cast<int>(m_view->sheet().lanes(m_ofPeople).size());
    const double thin = std::max(1.0, std::round(m_mm * 0.3));
    for (int lane = 0; lane < lanes; ++lane)
        painter.fillRect(QRectF(0, m_headHeight + lane * m_laneHeight + laneGap * m_mm / 2, width(),
                                m_laneHeight - laneGap * m_mm),
                         m_raised);
    for (const planning::Span& pause : day.breaks)
        painter.fillRect(QRectF(xOf(pause.from), m_headHeight, xOf(pause.to) - xOf(pause.from),
                                height() - m_headHeight),
                         m_ground);
    painter.setPen(m_groundInk);
    painter.setFont(fontOf(m_hourPixels, false));
    const QFontMetricsF metrics(fontOf(m_hourPixels, false));
    for (int minute = day.opens; minute < day.closes; minute += 60) {
        const double x = std::round(xOf(minute));
        const bool opens = minute == day.opens;
        painter.fillRect(
            QRectF(x, opens ? 0 : m_headHeight - 2 * m_mm, opens ? 2 * thin : thin, height()),
            m_groundLine);
        // Half a label would be another hour.
        const double half = metrics.horizontalAdvance(hourWords(minute)) / 2;
        if (minute > day.opens && x - half >= m_shownFrom && x + half <= m_shownTo)
            painter.drawText(QPointF(x - half, m_headHeight - 3 * m_mm), hourWords(minute));
    }
    // Of a day that is hardly in sight: nothing rather than half a word.
    const QString name = m_view->dayWords().value(m_day);
    const double left = std::max(0.0, m_shownFrom) + 2 * m_mm;
    const double room = std::min(width(), m_shownTo) - left;
    painter.setFont(fontOf(m_hourPixels, true));
    if (QFontMetricsF(painter.font()).horizontalAdvance(name) <= room)
        painter.drawText(QPointF(left, m_headHeight - 3 * m_mm - metrics.height()), name);
}

void PlanDay::paintBar(QPainter& painter, const SheetBar& bar) const
{
    const QRectF box = boxOf(bar);
    const bool chosen = m_job != nullptr && m_job->chosen() && m_job->job() == bar.job;
    const bool sameCar = m_job != nullptr && m_job->chosen() && m_job->stockNumber() == bar.stock;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(m_paper);
    painter.drawRoundedRect(box, cornerRadius * m_mm, cornerRadius * m_mm);
    if (bar.running) {
        painter.setBrush(m_ink);
        const double left = std::max(box.left(), m_shownFrom);
        painter.drawRect(QRectF(
            left, box.top(), std::clamp(box.right() - left, 0.0, bandWidth * m_mm), box.height()));
    }
    // What cures or dries: a line on from its end.
    if (bar.clear > bar.to) {
        const double right = xOf(bar.clear);
        painter.fillRect(
            QRectF(box.right(), box.center().y() - m_mm * 0.3, right - box.right(), m_mm * 0.6),
            m_groundInk);
        painter.fillRect(
            QRectF(right - m_mm * 0.6, box.center().y() - 2 * m_mm, m_mm * 0.6, 4 * m_mm),
            m_groundInk);
    }
    paintWords(painter, bar);
    if (m_view->isPinned(bar.job)) {
        // Held down by the manager's word: a corner, as a sheet is held by a pin.
        const double size = std::min(pinSize * m_mm, box.width());
        const QPointF corner[3] = {box.topRight(), box.topRight() - QPointF(size, 0),
                                   box.topRight() + QPointF(0, size)};
        painter.setPen(Qt::NoPen);
        painter.setBrush(m_ink);
        painter.drawPolygon(corner, 3);
    }
    if (!chosen && !sameCar)
        return;
    painter.setBrush(Qt::NoBrush);
    const double line = (chosen ? 1.4 : 0.6) * m_mm;
    painter.setPen(QPen(m_mark, line));
    painter.drawRoundedRect(box.adjusted(line / 2, line / 2, -line / 2, -line / 2),
                            cornerRadius * m_mm, cornerRadius * m_mm);
}

/// The part of a bar that its words have: what can be seen of it, without the band.
QRectF PlanDay::seenOf(const SheetBar& bar) const
{
    const QRectF box = boxOf(bar);
    QRectF seen = box.intersected(
        QRectF(m_shownFrom, box.top(), std::max(0.0, m_shownTo - m_shownFrom), box.height()));
    seen.adjust(bar.running ? std::min(bandWidth * m_mm, seen.width()) : 0, 0, 0, 0);
    return seen;
}

void PlanDay::paintWords(QPainter& painter, const SheetBar& bar) const
{
    const QRectF seen = seenOf(bar);
    const QFont plain = fontOf(m_fontPixels, false);
    const QFont strong = fontOf(m_fontPixels, true);
    const QFontMetricsF metrics(plain);
    const QFontMetricsF strongMetrics(strong);
    const double stockWidth = strongMetrics.horizontalAdvance(bar.stock);
    const double gap = m_mm * 0.6;
    const QRectF room = seen.adjusted(textInset * m_mm, gap, -gap, -gap);
    if (seen.width() < m_mm)
        return;
    painter.save();
    painter.setClipRect(seen.adjusted(0, 0, -gap, 0));
    painter.setPen(m_ink);
    painter.setFont(strong);
    if (room.width() >= stockWidth) {
        // As many lines of the title as the lane has room for.
        const double below = room.height() - strongMetrics.height() - gap;
        const int lines = std::max(1, static_cast<int>(below / metrics.height()));
        const QRectF wanted =
            metrics.boundingRect(QRectF(0, 0, room.width(), 1e4), wrapped, bar.title);
        const bool wraps = lines > 1 && wanted.width() <= room.width() &&
                           wanted.height() <= lines * metrics.height() + 1;
        const double title = wraps ? wanted.height() : metrics.height();
        const double top = room.center().y() - (strongMetrics.height() + gap + title) / 2;
        painter.drawText(QPointF(room.left(), top + strongMetrics.ascent()), bar.stock);
        if (bar.late)
            painter.fillRect(
                QRectF(room.left(), top + strongMetrics.ascent() + gap, stockWidth, m_mm * 0.8),
                m_ink);
        painter.setFont(plain);
        painter.setPen(m_inkMuted);
        const QRectF place(room.left(), top + strongMetrics.height() + gap, room.width(), title);
        if (wraps)
            painter.drawText(place, wrapped, bar.title);
        else
            painter.drawText(QPointF(place.left(), place.top() + metrics.ascent()),
                             metrics.elidedText(bar.title, Qt::ElideRight, place.width()));
    } else if (stockWidth <= seen.height() - m_mm && seen.width() >= strongMetrics.height() * 0.8) {
        // Too narrow to lie: the stock number stands on its end where that has room.
        painter.translate(seen.center().x(), seen.center().y());
        painter.rotate(-90);
        painter.drawText(
            QPointF(-stockWidth / 2, (strongMetrics.ascent() - strongMetrics.descent()) / 2),
            bar.stock);
    }
    painter.restore();
}

int PlanDay::laneAt(double y) const
{
    if (m_view == nullptr || y < m_headHeight)
        return -1;
    const int lane = static_cast<int>((y - m_headHeight) / m_laneHeight);
    return lane < static_cast<int>(m_view->sheet().lanes(m_ofPeople).size()) ? lane : -1;
}

int PlanDay::minuteAt(double x) const
{
    const SheetDay* day = sheetDay();
    if (day == nullptr)
        return 0;
    const double share = std::clamp(x / std::max(1.0, width()), 0.0, 1.0);
    return day->opens + static_cast<int>(share * (day->closes - day->opens));
}

int PlanDay::jobAt(double x, double y, double reach) const
{
    const int lane = laneAt(y);
    if (sheetDay() == nullptr || lane < 0)
        return -1;
    int nearest = -1;
    double least = reach;
    for (const SheetBar& bar : m_view->sheet().bars(m_ofPeople)[static_cast<std::size_t>(m_day)]) {
        if (bar.lane != lane)
            continue;
        const QRectF box = boxOf(bar);
        const double away = std::max({box.left() - x, x - box.right(), 0.0});
        if (away < least || (away <= least && nearest < 0)) {
            least = away;
            nearest = bar.job;
        }
    }
    return nearest;
}

QRectF PlanDay::wordsOf(int job) const
{
    if (sheetDay() == nullptr)
        return {};
    for (const SheetBar& bar : m_view->sheet().bars(m_ofPeople)[static_cast<std::size_t>(m_day)])
        if (bar.job == job)
            return seenOf(bar);
    return {};
}

QPointF PlanDay::middleOf(int job) const
{
    if (sheetDay() == nullptr)
        return {-1, -1};
    for (const SheetBar& bar : m_view->sheet().bars(m_ofPeople)[static_cast<std::size_t>(m_day)])
        if (bar.job == job)
            return boxOf(bar).center();
    return {-1, -1};
}

} // namespace ramplight
