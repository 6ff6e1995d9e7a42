// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storethread.h"

namespace ramplight {

StoreThread::StoreThread(StoreSettings settings, HeadKeeper keeper, const Clock& clock,
                         const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_settings(std::move(settings))
    , m_keeper(std::move(keeper))
    , m_clock(clock)
    , m_catalogue(catalogue)
{
    m_opened.error = {StoreErrorKind::Unavailable,
                      QStringLiteral("The database was not opened yet. Nothing was changed.")};
    m_thread.setObjectName(QStringLiteral("store"));
    m_worker.moveToThread(&m_thread);
    m_thread.start();
}

StoreThread::~StoreThread()
{
    post([this](Opened& opened) {
        opened.workshop.reset();
        opened.store.reset();
        m_thread.quit();
    });
    m_thread.wait();
}

void StoreThread::post(std::function<void(Opened&)> work)
{
    QMetaObject::invokeMethod(
        &m_worker, [this, work = std::move(work)] { work(m_opened); }, Qt::QueuedConnection);
}

QFuture<tl::expected<MigrationOutcome, StoreError>> StoreThread::start()
{
    using Result = tl::expected<MigrationOutcome, StoreError>;
    auto promise = std::make_shared<QPromise<Result>>();
    promise->start();
    QFuture<Result> future = promise->future();
    post([this, promise](Opened& opened) {
        promise->addResult(open(opened));
        promise->finish();
    });
    return future; // NOLINT(clang-analyzer-cplusplus.NewDeleteLeaks): Qt's queue owns it
}

tl::expected<MigrationOutcome, StoreError> StoreThread::open(Opened& opened)
{
    auto store = Store::open(m_settings, m_keeper);
    if (!store) {
        opened.error = store.error();
        return tl::unexpected(store.error());
    }
    ChangeFeed& feed = (*store)->feed();
    connect(&feed, &ChangeFeed::changed, this, &StoreThread::changed);
    connect(&feed, &ChangeFeed::siteChanged, this, &StoreThread::siteChanged);
    if (auto started = feed.start(); !started) {
        opened.error = started.error();
        return tl::unexpected(started.error());
    }
    opened.store = std::move(*store);
    opened.workshop = std::make_unique<Workshop>(opened.store->ledger(), m_clock, m_catalogue);
    return opened.store->ledger().opening();
}

} // namespace ramplight
