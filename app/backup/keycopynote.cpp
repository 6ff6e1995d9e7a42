// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/keycopynote.h"

#include "backup/summedjson.h"

namespace ramplight {

Moment keyCopiedAt(const QString& path, const QString& keyId)
{
    const auto note = noteIn<KeyCopyNote>(path);
    return note.keyId == keyId ? note.at : Moment{};
}

tl::expected<void, QString> noteKeyCopy(const QString& path, const KeyCopyNote& note)
{
    return keepSummed(path, toJson(note));
}

} // namespace ramplight
