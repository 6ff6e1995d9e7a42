// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/knowncatalogues.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <future>

// What this program carries with it.
namespace ramplight {

/// Error: its faults, in words.
[[nodiscard]] tl::expected<Catalogue, QString> shippedCatalogue();
/// The same, read while the window system and the fonts are got ready.
[[nodiscard]] std::future<tl::expected<Catalogue, QString>> shippedCatalogueAside();
/// What it knows of the catalogues by which work was opened; its own is read once. Any thread.
/// Error: words.
[[nodiscard]] tl::expected<KnownCatalogues, QString> knownCatalogues();
[[nodiscard]] QByteArray appraisalSchema();
/// Whether there is one of that language ("en").
[[nodiscard]] bool hasLexicon(const QString& language);
/// Empty when there is none.
[[nodiscard]] QByteArray shippedLexicon(const QString& language);

} // namespace ramplight
