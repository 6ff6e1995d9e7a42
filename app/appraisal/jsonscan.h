// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/filefault.h"

#include <QByteArray>
#include <QHash>
#include <QSet>
#include <QString>

#include <vector>

// One pass over JSON text without building anything: is it JSON, is it nested reasonably, is a key
// there twice, and where in the text the asked-for values stand. Pure, no I/O.
namespace ramplight {

/// No file of ours nests deeper than 5; the bound keeps a hostile one from exhausting the stack.
constexpr int maxJsonDepth = 32;

struct JsonScan
{
    /// Syntax, depth and double keys, with line and column; empty when the text is sound.
    std::vector<FileFault> faults;
    /// JSON pointer -> byte where the value starts (for an object's member: where its key starts).
    QHash<QString, qsizetype> offsets;
};

/// UTF-8, without a byte order mark. Offsets are kept for the wanted pointers only.
[[nodiscard]] JsonScan scanJson(const QByteArray& json, const QSet<QString>& wanted);

/// Fills in line and column (in characters) of a byte of the text.
void placeFault(FileFault& fault, const QByteArray& json, qsizetype offset);

} // namespace ramplight
