// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/paper.h"

namespace ramplight::test {

/// What is written on a page, line by line.
[[nodiscard]] inline QString textOf(const paper::Page& page)
{
    QStringList lines;
    for (const paper::Item& item : page)
        if (const auto* text = std::get_if<paper::Text>(&item))
            lines.append(text->text);
    return lines.join(QLatin1Char('\n'));
}

} // namespace ramplight::test
