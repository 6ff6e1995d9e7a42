// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "appraisal/filefault.h"

#include <rapidjson/document.h>

#include <vector>

// Holds a document against a JSON Schema (draft 4) and lists every fault, in our words; the
// library's own validator stops at the first and speaks in keywords. Known here: $ref within the
// schema, type, enum, properties, required, additionalProperties (false), items, minItems,
// maxItems, uniqueItems, minimum, maximum, minLength, maxLength, pattern; a description beside a
// pattern says in words what was expected. Pure, no I/O.
namespace ramplight {

/// At most 200 faults, with path and expected; line, column and words are the caller's.
[[nodiscard]] std::vector<FileFault> checkAgainstSchema(const rapidjson::Value& document,
                                                        const rapidjson::Value& schema);

/// The known word that is nearest to a mistyped one; empty when none is near.
[[nodiscard]] QString nearestWord(const QString& word, const QStringList& known);

} // namespace ramplight
