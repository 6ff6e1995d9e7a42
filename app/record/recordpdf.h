// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"
#include "record/recordcheck.h"
#include "record/recordmodel.h"
#include "record/recordstamp.h"

#include <QByteArray>
#include <QImage>

#include <tl/expected.hpp>

#include <vector>

// The record on paper and on the screen: laid out once, in A4 pages. Both block for the photos and
// need a QGuiApplication (fonts); any thread.
namespace ramplight {

/// A stamped PDF. A photo that cannot be read leaves its frame with the reason. Error: words.
[[nodiscard]] tl::expected<QByteArray, QString>
renderPdf(const RecordModel& model, const PhotoVault& photos, const RecordSealer& sealer = {});
/// The same pages for the screen, about 110 dpi.
[[nodiscard]] std::vector<QImage> renderPages(const RecordModel& model, const PhotoVault& photos);

} // namespace ramplight
