// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workshop.h"

#include <QFuture>
#include <QFutureWatcher>
#include <QObject>

#include <tl/expected.hpp>

#include <utility>

namespace ramplight {

/// What a service promises: a value, or why not.
template <class T>
using Answer = QFuture<tl::expected<T, Failure>>;

/// Calls then(result) on the thread of context once the future has one; never after context is
/// gone, and never when the future was cancelled without a result (the program is closing).
template <class T, class Then>
void whenReady(const QFuture<T>& future, QObject* context, Then then)
{
    auto* watcher = new QFutureWatcher<T>(context);
    QObject::connect(watcher, &QFutureWatcher<T>::finished, context,
                     [watcher, then = std::move(then)]() mutable {
                         watcher->deleteLater();
                         // Where it lies: a copy of an answer can be megabytes.
                         if (const QFuture<T> done = watcher->future(); done.resultCount() > 0)
                             then(*done.constBegin());
                     });
    watcher->setFuture(future);
}

} // namespace ramplight
