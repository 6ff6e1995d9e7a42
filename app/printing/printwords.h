// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "printing/printport.h"

#include <QStringList>

// What a printing system reports, as a person says it. Pure.
namespace ramplight {

/// detail: the system's own words, used where ours cannot know more.
[[nodiscard]] PrintRefusal refusalOf(PrintFault fault, const QString& queue,
                                     const QString& detail = {});

/// From the printer-state-reasons of RFC 8011, 5.4.12, and those of CUPS ("media-empty-error",
/// "offline-report"), the one that a person has to do something about: "it is out of paper".
/// Empty: none of them keeps a job from the paper.
[[nodiscard]] QString troubleWords(const QStringList& reasons);

/// "Office has it, but it is out of paper. ..."
[[nodiscard]] QString waitingWords(const QString& queue, const QString& trouble);

} // namespace ramplight
