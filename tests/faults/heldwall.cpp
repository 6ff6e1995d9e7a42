// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "heldwall.h"

#include "domain/jsontext.h"

#include <QCryptographicHash>
#include <QFutureWatcher>

#include <algorithm>
#include <utility>

namespace ramplight::test {

QByteArray digestOf(const std::vector<CarCard>& cards)
{
    QByteArrayList lines;
    for (const CarCard& card : cards)
        lines.append(jsonText(card));
    std::ranges::sort(lines);
    return QCryptographicHash::hash(lines.join('\n'), QCryptographicHash::Sha256).toHex();
}

HeldWall::HeldWall(StoreThread& store, std::function<void()> told)
    : m_store(store)
    , m_told(std::move(told))
{
    connect(&store, &StoreThread::changed, this, &HeldWall::read);
    read();
}

QByteArray HeldWall::digest() const
{
    return m_cards ? digestOf(*m_cards) : QByteArray();
}

void HeldWall::read()
{
    if (std::exchange(m_reading, true)) {
        m_again = true;
        return;
    }
    using Cards = tl::expected<std::vector<CarCard>, StoreError>;
    auto* watcher = new QFutureWatcher<Cards>(this);
    connect(watcher, &QFutureWatcher<Cards>::finished, this, [this, watcher] {
        watcher->deleteLater();
        m_reading = false;
        // Where the store has no answer the wall stays as it is.
        if (Cards cards = watcher->result()) {
            m_cards = std::move(*cards);
            m_told();
        }
        if (std::exchange(m_again, false))
            read();
    });
    watcher->setFuture(m_store.run([](Workshop&, Store& store) { return store.wall().wall(); }));
}

} // namespace ramplight::test
