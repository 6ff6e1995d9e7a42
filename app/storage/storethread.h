// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workshop.h"
#include "storage/store.h"

#include <QFuture>
#include <QObject>
#include <QPromise>
#include <QStringList>
#include <QThread>

#include <functional>
#include <memory>
#include <type_traits>
#include <utility>

namespace ramplight {

/// The thread that all SQL runs on. Opens the store there and carries out what is posted, in order.
/// Made and used on one thread (the screen's); only values cross over.
class StoreThread : public QObject
{
    Q_OBJECT

public:
    /// Clock and catalogue outlive the thread and are used on it.
    StoreThread(StoreSettings settings, HeadKeeper keeper, const Clock& clock,
                const Catalogue& catalogue, QObject* parent = nullptr);
    /// Carries out what was posted before, then closes the database.
    ~StoreThread() override;

    /// Opens the store and starts its feed; once. What is run() before it has opened waits.
    [[nodiscard]] QFuture<tl::expected<MigrationOutcome, StoreError>> start();

    /// f(Workshop&, Store&) on the store's thread. When the store could not be opened f is not
    /// called: a result that can carry a StoreError carries it, any other future is cancelled.
    template <class F>
    [[nodiscard]] auto run(F f) -> QFuture<std::invoke_result_t<F&, Workshop&, Store&>>
    {
        using Result = std::invoke_result_t<F&, Workshop&, Store&>;
        struct Task
        {
            QPromise<Result> promise;
            F f;
        };
        auto task = std::make_shared<Task>(Task{QPromise<Result>(), std::move(f)});
        task->promise.start();
        QFuture<Result> future = task->promise.future();
        post([task](Opened& opened) {
            if (opened.workshop) {
                if constexpr (std::is_void_v<Result>)
                    task->f(*opened.workshop, *opened.store);
                else
                    task->promise.addResult(task->f(*opened.workshop, *opened.store));
            } else if constexpr (std::is_constructible_v<Result, tl::unexpected<StoreError>>) {
                task->promise.addResult(Result(tl::unexpected<StoreError>(opened.error)));
            } else {
                task->promise.future().cancel();
            }
            task->promise.finish();
        });
        return future;
    }

signals:
    /// As ChangeFeed has them.
    void changed(const QStringList& cars);
    void siteChanged();

private:
    /// Lives and dies on the store's thread.
    struct Opened
    {
        std::unique_ptr<Store> store;
        std::unique_ptr<Workshop> workshop;
        StoreError error;
    };

    void post(std::function<void(Opened&)> work);
    [[nodiscard]] tl::expected<MigrationOutcome, StoreError> open(Opened& opened);

    const StoreSettings m_settings;
    const HeadKeeper m_keeper;
    const Clock& m_clock;
    const Catalogue& m_catalogue;
    QThread m_thread;
    QObject m_worker; ///< lives on m_thread: what is posted to it runs there
    Opened m_opened;  ///< touched on m_thread only
};

} // namespace ramplight
