// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "../domain/randomcommands.h"

#include "evidence/photokeeper.h"
#include "storage/storesettings.h"

#include <QImage>

namespace ramplight::test {

/// Where a house that several kiosks share has its photos: beside its file, or in the server's
/// database. Where the settings name a folder for those that wait for the server, with that.
[[nodiscard]] std::unique_ptr<PhotoKeeper> photosOf(const StoreSettings& settings);
/// Small, and like no other.
[[nodiscard]] QImage anyPicture(Dice& dice);

} // namespace ramplight::test
