// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"

#include <QByteArray>
#include <QJsonObject>
#include <QString>

#include <tl/expected.hpp>

// Small files that something is decided by: each holds the sum of what else is in it, so that a bit
// that turns is found. No seal: whoever can write the file can sum it up, too.
namespace ramplight {

[[nodiscard]] QByteArray summed(QJsonObject object);

/// As it was summed. One without a sum, of an older program, is taken as it is. Error: words.
[[nodiscard]] tl::expected<QJsonObject, QString> wholeObject(const QByteArray& file);
/// The same of a file. Empty where there is none, or none that is whole.
[[nodiscard]] QJsonObject wholeObjectIn(const QString& path);

/// Durable when it returns. Error: words.
[[nodiscard]] tl::expected<void, QString> keepSummed(const QString& path,
                                                     const QJsonObject& object);

/// What was kept of a Note; a blank one where it cannot be read, or is not what was written.
template <class Note>
[[nodiscard]] Note noteIn(const QString& path)
{
    Note note;
    return fromJson(wholeObjectIn(path), note).isEmpty() ? note : Note();
}

} // namespace ramplight
