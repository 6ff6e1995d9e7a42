// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/beforeafter.h"

#include "kiosk/photourl.h"

#include <algorithm>

namespace ramplight {

namespace {

/// The one with this key, or the fallback when there is none.
PhotoRow chosenOf(const std::vector<PhotoRow>& rows, const QString& key, const PhotoRow& fallback)
{
    const auto found = std::ranges::find(rows, key, &PhotoRow::photoKey);
    return found == rows.end() ? fallback : *found;
}

} // namespace

BeforeAfter::BeforeAfter(Desk& desk, CarView& car, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_car(car)
    , m_book(book)
    , m_ticker(ticker)
    , m_works(false)
{
    connect(&m_car, &CarView::changed, this, &BeforeAfter::rebuild);
}

QList<int> BeforeAfter::operations() const
{
    QList<int> ids;
    for (const PhotographedWork& work : m_all)
        ids.append(work.operation.value);
    return ids;
}

QString BeforeAfter::title() const
{
    return work() == nullptr ? QString() : work()->title;
}

QString BeforeAfter::fitWords() const
{
    switch (m_fit) {
    case Nothing:
        return {};
    case Looking:
        return tr("Looking whether they can be laid on each other");
    case Close:
        return tr("Taken from nearly the same place: they can be laid on each other");
    case Apart:
        return tr("Taken from somewhere else: shown side by side");
    case Fault:
        return m_fault;
    }
    return {};
}

QString BeforeAfter::beforeLaidUrl() const
{
    return m_fit == Close ? laidUrl({{m_before.photoId}, {}, part()}) : QString();
}

QString BeforeAfter::afterLaidUrl() const
{
    return m_fit == Close ? laidUrl({{m_after.photoId}, m_pair.alignment.toAfter, part()})
                          : QString();
}

qreal BeforeAfter::proportion() const
{
    const QRectF shown = part();
    return shown.isEmpty() ? 1 : shown.width() / shown.height();
}

bool BeforeAfter::compares(const QString& photoKey) const
{
    return std::ranges::any_of(m_all,
                               [&](const PhotographedWork& work) { return work.has(photoKey); });
}

bool BeforeAfter::comparesWork(int operationId) const
{
    return std::ranges::find(m_all, OperationId{operationId}, &PhotographedWork::operation) !=
           m_all.end();
}

void BeforeAfter::openWork(int operationId)
{
    m_open = OperationId{operationId};
    show({}, {});
}

void BeforeAfter::open()
{
    openWork(m_all.empty() ? 0 : m_all.front().operation.value);
}

void BeforeAfter::openPhoto(const QString& photoKey)
{
    const auto found = std::ranges::find_if(
        m_all, [&](const PhotographedWork& work) { return work.has(photoKey); });
    if (found == m_all.end())
        return;
    m_open = found->operation;
    show(photoKey, photoKey);
}

void BeforeAfter::choose(const QString& photoKey)
{
    const bool isBefore =
        work() != nullptr &&
        std::ranges::find(work()->before, photoKey, &PhotoRow::photoKey) != work()->before.end();
    show(isBefore ? photoKey : beforeKey(), isBefore ? afterKey() : photoKey);
}

void BeforeAfter::close()
{
    m_open = {};
    show({}, {});
}

const PhotographedWork* BeforeAfter::work() const
{
    const auto found = std::ranges::find(m_all, m_open, &PhotographedWork::operation);
    return m_open.isNull() || found == m_all.end() ? nullptr : &*found;
}

void BeforeAfter::rebuild()
{
    if (m_car.id() != m_of) {
        m_of = m_car.id();
        m_open = {};
    }
    m_all = photographedWork(m_car.car(), m_book, m_ticker.now());
    std::vector<ChoiceRow> rows;
    rows.reserve(m_all.size());
    for (const PhotographedWork& work : m_all)
        rows.push_back({QString::number(work.operation.value), work.title, {}, false});
    m_works.offer(std::move(rows));
    show(beforeKey(), afterKey());
}

void BeforeAfter::show(const QString& wantedBefore, const QString& wantedAfter)
{
    const PhotographedWork* now = work();
    const QString before = m_before.photoId;
    const QString after = m_after.photoId;
    if (now == nullptr) {
        m_befores.setRows({});
        m_afters.setRows({});
        m_before = {};
        m_after = {};
        m_works.clear();
    } else {
        m_befores.setRows(now->before);
        m_afters.setRows(now->after);
        m_before = chosenOf(now->before, wantedBefore, now->before.front());
        m_after = chosenOf(now->after, wantedAfter, now->after.back());
        m_works.setChosen({QString::number(now->operation.value)});
    }
    if (m_before.photoId != before || m_after.photoId != after)
        align();
    emit changed();
}

void BeforeAfter::align()
{
    const int turn = ++m_turn;
    m_pair = {};
    m_fit = m_before.photoId.isEmpty() ? Nothing : Looking;
    if (m_fit == Nothing)
        return;
    whenReady(m_desk.alignPhotos({m_before.photoId}, {m_after.photoId}), this,
              [this, turn](const tl::expected<PhotoPair, EvidenceError>& pair) {
                  if (turn != m_turn)
                      return;
                  if (pair) {
                      m_pair = *pair;
                      m_fit = pair->alignment.isClose() ? Close : Apart;
                  } else {
                      m_fit = Fault;
                      m_fault = words(pair.error());
                  }
                  emit changed();
              });
}

QRectF BeforeAfter::part() const
{
    const QSize size = m_pair.before;
    const double side = std::max(size.width(), size.height());
    const QRectF pixels = commonPart(m_pair.alignment.toAfter, size, m_pair.after);
    if (side <= 0 || pixels.isEmpty())
        return {};
    return {(pixels.x() - size.width() / 2.0) / side, (pixels.y() - size.height() / 2.0) / side,
            pixels.width() / side, pixels.height() / side};
}

} // namespace ramplight
