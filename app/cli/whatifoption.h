// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "planning/whatif.h"

#include <QJsonObject>
#include <QStringList>

#include <tl/expected.hpp>

// What `ramplight plan --what-if` is given, and what it says.
namespace ramplight::cli {

/// How an option is written, for the help.
[[nodiscard]] QString whatIfForms();

/// "away:Ines,fri,mon", "hours:all,sat,8-13", "promise:T-301,2031-05-12,must-be-kept": days are
/// today, tomorrow, a weekday to come or a date. Names and stock numbers are the house's, a name's
/// first part is enough where it is one person's. Error: words for whoever typed it.
[[nodiscard]] tl::expected<std::vector<planning::whatif::Change>, QString>
readWhatIf(const QString& text, const planning::HouseInput& input, QDate today);

/// A plan and the one with changes in it, held against each other, as text.
[[nodiscard]] QString whatIfText(const planning::HousePlan& before,
                                 const planning::HousePlan& after, const QStringList& changes);
/// The same as an object.
[[nodiscard]] QJsonObject whatIfJson(const planning::HousePlan& before,
                                     const planning::HousePlan& after, const QStringList& changes);

} // namespace ramplight::cli
