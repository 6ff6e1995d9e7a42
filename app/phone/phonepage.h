// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "phone/invitations.h"

#include <tl/expected.hpp>

#include <vector>

// What the phone is shown: self-contained HTML and plain words, in the workshop's language.
namespace ramplight {

/// What became of one photo. Value: what may be wrong with it although it was taken, in words;
/// empty when all is well. Error: why it was not taken, in words.
using PhotoAnswer = tl::expected<QString, QString>;

/// The page of an invitation, with what became of the photos that were just sent (none at first).
/// mostBytes: of one photo.
[[nodiscard]] QByteArray phonePage(const PhoneErrand& errand, const std::vector<PhotoAnswer>& sent,
                                   qint64 mostBytes);
/// A page that says one thing and has no form: nothing is here, too much at once.
[[nodiscard]] QByteArray phoneNote(const QString& title, const QString& words);
/// One photo's answer for the page's script.
[[nodiscard]] QByteArray phoneWords(const PhotoAnswer& answer);
/// Content-Security-Policy: nothing but the page's own style and script, by their hashes.
[[nodiscard]] QByteArray phonePolicy();

/// What is said in many places.
namespace phonewords {
/// One for every path that is no open invitation: who guesses learns nothing from it.
[[nodiscard]] QString nothingHereTitle();
[[nodiscard]] QString nothingHere();
[[nodiscard]] QString nothingTakenTitle();
[[nodiscard]] QString ended();
[[nodiscard]] QString tooLarge();
[[nodiscard]] QString tooMany();
[[nodiscard]] QString busy();
[[nodiscard]] QString noForm();
[[nodiscard]] QString closing();
} // namespace phonewords

} // namespace ramplight
