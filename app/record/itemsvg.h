// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/paper.h"

#include <QSizeF>

namespace ramplight::paper {

/// A drawing of the pages as an SVG element: what lies within (0, 0) and the size. Photos are left
/// out. words: what it shows. name: for the ids in it, no other drawing of the document has it.
[[nodiscard]] QString svgOf(const std::vector<Item>& items, QSizeF size, const QString& words,
                            const QString& name);

} // namespace ramplight::paper
