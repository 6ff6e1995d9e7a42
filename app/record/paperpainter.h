// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photovault.h"
#include "record/paper.h"

class QPainter;

namespace ramplight::paper {

/// Paints a page; the painter's unit is a hundredth of a millimetre. Blocks for the photos, which
/// are read one after the other and let go again.
void paintPage(QPainter& painter, const Page& page, const PhotoVault& photos);

} // namespace ramplight::paper
