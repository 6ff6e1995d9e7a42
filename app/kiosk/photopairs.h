// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "kiosk/carlists.h"
#include "kiosk/sitebook.h"

#include <vector>

namespace ramplight {

/// Work that was photographed before and after: at least one photo of each.
struct PhotographedWork
{
    OperationId operation;
    QString title;                ///< of the operation, with its place
    std::vector<PhotoRow> before; ///< as they were attached
    std::vector<PhotoRow> after;

    [[nodiscard]] bool has(const QString& photoKey) const;
};

/// The car's work of which there are both, in the order in which it was opened. Before it are its
/// own photos and those of the findings that it answers; without any, those of its place. Pure.
[[nodiscard]] std::vector<PhotographedWork> photographedWork(const CarState& car,
                                                             const SiteBook& book, Moment now);

} // namespace ramplight
