// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/storethread.h"

namespace ramplight {

StoreThread::StoreThread(StoreSettings settings, HeadKeeper keeper, const Clock& clock,
                         const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
{
    m_thread.setObjectName(QStringLiteral("store"));
    m_worker.moveToThread(&m_thread);
    m_thread.start();
    QMetaObject::invokeMethod(
        &m_worker,
        [this, settings = std::move(settings), keeper = std::move(keeper), &clock, &catalogue] {
            countStatements(m_statements);
            m_opened = std::make_unique<OpenStore>(settings, keeper, clock, catalogue);
            connect(m_opened.get(), &OpenStore::changed, this, &StoreThread::changed);
            connect(m_opened.get(), &OpenStore::siteChanged, this, &StoreThread::siteChanged);
            connect(m_opened.get(), &OpenStore::damaged, this, &StoreThread::damaged);
            connect(m_opened.get(), &OpenStore::standingChanged, this,
                    &StoreThread::standingChanged);
        },
        Qt::QueuedConnection);
}

StoreThread::~StoreThread()
{
    QMetaObject::invokeMethod(
        &m_worker,
        [this] {
            m_opened.reset();
            m_thread.quit();
        },
        Qt::QueuedConnection);
    m_thread.wait();
}

void StoreThread::post(std::function<void(OpenStore&)> work)
{
    QMetaObject::invokeMethod(
        &m_worker, [this, work = std::move(work)] { work(*m_opened); }, Qt::QueuedConnection);
}

QFuture<tl::expected<MigrationOutcome, StoreError>> StoreThread::start()
{
    using Result = tl::expected<MigrationOutcome, StoreError>;
    auto promise = std::make_shared<QPromise<Result>>();
    promise->start();
    QFuture<Result> future = promise->future();
    post([promise](OpenStore& opened) {
        promise->addResult(opened.open());
        promise->finish();
    });
    return future; // NOLINT(clang-analyzer-cplusplus.NewDeleteLeaks): Qt's queue owns it
}

QFuture<tl::expected<void, StoreError>> StoreThread::note(qint64 kept, PersonId by)
{
    using Result = tl::expected<void, StoreError>;
    auto promise = std::make_shared<QPromise<Result>>();
    promise->start();
    QFuture<Result> future = promise->future();
    post([promise, kept, by](OpenStore& opened) {
        promise->addResult(opened.note(kept, by));
        promise->finish();
    });
    return future; // NOLINT(clang-analyzer-cplusplus.NewDeleteLeaks): Qt's queue owns it
}

} // namespace ramplight
