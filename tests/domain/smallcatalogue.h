// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"

namespace ramplight::test {

/// A workshop's catalogue in small: one operation for each thing that a catalogue can say. Tests of
/// rules read it at a glance and do not change when the shipped one does.
[[nodiscard]] Catalogue smallCatalogue();

[[nodiscard]] inline PlaceId at(const char* place)
{
    return PlaceId{QString::fromLatin1(place)};
}

} // namespace ramplight::test
