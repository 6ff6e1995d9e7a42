// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QFuture>
#include <QPromise>
#include <QThreadPool>

#include <memory>
#include <type_traits>
#include <utility>

namespace ramplight {

/// f() on a pool. The future has a result once f() is done; none when the pool was cleared before.
template <class F>
auto onPool(QThreadPool& pool, F f) -> QFuture<std::invoke_result_t<F&>>
{
    using Result = std::invoke_result_t<F&>;
    auto promise = std::make_shared<QPromise<Result>>();
    promise->start();
    QFuture<Result> future = promise->future();
    pool.start([promise, f = std::move(f)]() mutable {
        promise->addResult(f());
        promise->finish();
    });
    return future;
}

} // namespace ramplight
