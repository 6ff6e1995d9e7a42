// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workshop.h"
#include "storage/openstore.h"
#include "storage/store.h"

#include <QFuture>
#include <QObject>
#include <QPromise>
#include <QStringList>
#include <QThread>

#include <atomic>
#include <concepts>
#include <functional>
#include <memory>
#include <optional>
#include <type_traits>
#include <utility>
#include <variant>

namespace ramplight {

/// What the store said to a piece of work; null: nothing.
template <class Result>
[[nodiscard]] const StoreError* storeErrorIn(const Result& result)
{
    if constexpr (requires { requires std::same_as<decltype(result.error()), const StoreError&>; })
        return result ? nullptr : &result.error();
    else if constexpr (requires {
                           requires std::same_as<decltype(result.error()), const Failure&>;
                       })
        return result ? nullptr : std::get_if<StoreError>(&result.error());
    else
        return nullptr;
}

/// The thread that all SQL runs on. Opens the store there and carries out what is posted, in order.
/// Made and used on one thread (the screen's), but for run(), which is for any; only values cross
/// over.
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

    /// See OpenStore::rest(): what was posted before is carried out, then the file is closed. Any
    /// thread.
    [[nodiscard]] QFuture<void> rest(const QString& words);
    /// The same for OpenStore::getUp().
    [[nodiscard]] QFuture<void> getUp();

    /// See OpenStore::note().
    [[nodiscard]] QFuture<tl::expected<void, StoreError>> note(qint64 kept, PersonId by);
    /// See OpenStore::noted().
    [[nodiscard]] QFuture<tl::expected<std::vector<KeptRequest>, StoreError>> noted();

    /// How many statements were carried out so far: while that goes up, a long piece of work gets
    /// on. Any thread.
    [[nodiscard]] quint64 statements() const { return m_statements; }

    /// f(Workshop&, Store&) on the store's thread, twice where the server that it works with goes
    /// away in the middle. When the store could not be opened f is not
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
        post([task](OpenStore& opened) {
            std::optional<StoreError> error;
            [[maybe_unused]] std::conditional_t<std::is_void_v<Result>, int, std::optional<Result>>
                result{};
            // Once more where the server went away in the middle: then the working copy answers. A
            // command that had come through all the same is known again by its id.
            bool askedBefore = false;
            do {
                Workshop* const workshop = opened.workshop(std::exchange(askedBefore, true));
                if (workshop == nullptr)
                    error = opened.error();
                else if constexpr (std::is_void_v<Result>)
                    task->f(*workshop, opened.store());
                else
                    result.emplace(task->f(*workshop, opened.store()));
            } while (opened.lostMeanwhile());
            if constexpr (std::is_void_v<Result>)
                opened.tellDamage(nullptr);
            else
                opened.tellDamage(result ? storeErrorIn(*result) : nullptr);
            if (!error) {
                if constexpr (!std::is_void_v<Result>)
                    task->promise.addResult(std::move(*result));
            } else if constexpr (std::is_constructible_v<Result, tl::unexpected<StoreError>>) {
                task->promise.addResult(Result(tl::unexpected<StoreError>(*error)));
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
    /// As OpenStore has them.
    void damaged(const QString& words);
    void standingChanged(const ramplight::ServerStanding& standing);

private:
    void post(std::function<void(OpenStore&)> work);
    /// f(OpenStore&), whatever can be worked with.
    template <class F>
    [[nodiscard]] auto ask(F f) -> QFuture<std::invoke_result_t<F&, OpenStore&>>;

    std::atomic<quint64> m_statements = 0;
    QThread m_thread;
    QObject m_worker;                    ///< lives on m_thread: what is posted to it runs there
    std::unique_ptr<OpenStore> m_opened; ///< lives and dies on m_thread
};

} // namespace ramplight
