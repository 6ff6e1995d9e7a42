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

template <class F>
auto StoreThread::ask(F f) -> QFuture<std::invoke_result_t<F&, OpenStore&>>
{
    using Result = std::invoke_result_t<F&, OpenStore&>;
    auto promise = std::make_shared<QPromise<Result>>();
    promise->start();
    QFuture<Result> future = promise->future();
    post([promise, f = std::move(f)](OpenStore& opened) mutable {
        if constexpr (std::is_void_v<Result>)
            f(opened);
        else
            promise->addResult(f(opened));
        promise->finish();
    });
    return future; // NOLINT(clang-analyzer-cplusplus.NewDeleteLeaks): Qt's queue owns it
}

QFuture<tl::expected<MigrationOutcome, StoreError>> StoreThread::start()
{
    return ask([](OpenStore& opened) { return opened.open(); });
}

QFuture<void> StoreThread::rest(const QString& words)
{
    return ask([words](OpenStore& opened) { opened.rest(words); });
}

QFuture<void> StoreThread::getUp()
{
    return ask([](OpenStore& opened) { opened.getUp(); });
}

QFuture<tl::expected<void, StoreError>> StoreThread::note(qint64 kept, PersonId by)
{
    return ask([kept, by](OpenStore& opened) { return opened.note(kept, by); });
}

QFuture<tl::expected<std::vector<KeptRequest>, StoreError>> StoreThread::noted()
{
    return ask([](OpenStore& opened) { return opened.noted(); });
}

} // namespace ramplight
