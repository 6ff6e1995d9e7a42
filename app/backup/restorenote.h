// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "backup/backup.h"
#include "domain/codec.h"
#include "domain/moment.h"
#include "storage/salvage.h"

#include <QString>

#include <tl/expected.hpp>

#include <vector>

// That a workshop was brought back, and what of it is older than it was: kept in the house, since
// whoever brings it back is not who looks after the cars.
namespace ramplight {

struct RestoreNote
{
    Moment at;     ///< it was brought back; null: it never was
    Moment madeAt; ///< of the backup
    /// What was done since the backup and came along, and what did not; a sentence or two each.
    std::vector<QString> told;
    std::vector<QString> cars; ///< stock numbers of those that are not as they were, where known
    bool isLeftBehind = false; ///< something did not come along

    static constexpr auto fields =
        fieldList(field("at", &RestoreNote::at), field("madeAt", &RestoreNote::madeAt),
                  field("told", &RestoreNote::told), field("cars", &RestoreNote::cars),
                  field("leftBehind", &RestoreNote::isLeftBehind));
    friend bool operator==(const RestoreNote&, const RestoreNote&) = default;
};

/// What was read out of the damaged file, in words for a person. missingPhotos: of what came along.
[[nodiscard]] RestoreNote noteOf(const Salvaged& salvaged, int missingPhotos);

/// What was wrong already when the backup was made; nothing for nothing.
void tellWhatWasSo(RestoreNote& note, const QStringList& faults);

/// What neither the backup nor the house had; nothing for nothing.
void tellWhatLacks(RestoreNote& note, const Lacking& lacking);

/// A blank note where there is none, or none that is whole.
[[nodiscard]] RestoreNote readRestoreNote(const QString& path);
/// Durable when it returns. Error: words.
[[nodiscard]] tl::expected<void, QString> keepRestoreNote(const QString& path,
                                                          const RestoreNote& note);

} // namespace ramplight
