// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"

#include <QTranslator>

#include <tl/expected.hpp>

#include <memory>

// Screens, records and commands in another language than English.
namespace ramplight {

/// The words of a language ("de"): ramplight_de.qm among the translations of the workshop's folder,
/// else as the program carries it. Error: words.
[[nodiscard]] tl::expected<std::unique_ptr<QTranslator>, QString>
translationOf(const HousePaths& paths, const QString& language);

/// From here on the program speaks the language that settings.ini names, and writes days and
/// numbers as that does. English where none is named, or where it cannot be had: why not is logged
/// by HouseSettings::read(). An application exists. Keep what it gives for as long as that does.
[[nodiscard]] std::unique_ptr<QTranslator> speakAsSet(const HousePaths& paths);

} // namespace ramplight
