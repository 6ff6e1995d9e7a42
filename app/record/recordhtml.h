// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"
#include "record/recordmodel.h"
#include "record/recordstamp.h"

#include <QByteArray>

#include <tl/expected.hpp>

namespace ramplight {

/// The record as one HTML file that needs nothing beside it: typeface, drawings and photos are in
/// it, no script, no address is ever asked. The words and the order are those of the PDF, and it
/// prints on A4. Stamped. Photos are bounded, all together and each. Blocks for the photos; needs
/// a QGuiApplication; any thread. Error: words.
[[nodiscard]] tl::expected<QByteArray, QString>
renderHtml(const RecordModel& model, const PhotoVault& photos, const RecordSealer& sealer = {});

} // namespace ramplight
