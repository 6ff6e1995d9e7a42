// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/moment.h"

#include <QString>

#include <tl/expected.hpp>

// The site's key file is in no backup, and without it nothing opens: the house remembers when it
// was last seen in two places.
namespace ramplight {

struct KeyCopyNote
{
    QString keyId; ///< of which keys
    Moment at;

    static constexpr auto fields =
        fieldList(field("key", &KeyCopyNote::keyId), field("at", &KeyCopyNote::at));
};

/// Of these keys; null: none is known of, or what was noted cannot be read.
[[nodiscard]] Moment keyCopiedAt(const QString& path, const QString& keyId);

/// Durable when it returns. Error: words.
[[nodiscard]] tl::expected<void, QString> noteKeyCopy(const QString& path, const KeyCopyNote& note);

} // namespace ramplight
