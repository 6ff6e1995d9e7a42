// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/spokenround.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <vector>

namespace ramplight {

/// Transcripts that were read, in a folder: <root>/<id>.txt as they came. What is kept never
/// changes, and the same words are kept once. Synchronous, immutable, any thread; errors are words
/// for a person.
class TranscriptStore
{
public:
    explicit TranscriptStore(QString root);

    /// Durable when it returns. The folder is made when it is missing.
    [[nodiscard]] tl::expected<void, QString> keep(const TranscriptId& id,
                                                   const QByteArray& file) const;
    /// The kept bytes, compared with the id first.
    [[nodiscard]] tl::expected<QByteArray, QString> open(const TranscriptId& id) const;

    /// Those that are kept and can no longer be opened.
    [[nodiscard]] std::vector<TranscriptId> damaged() const;

private:
    [[nodiscard]] QString pathOf(const TranscriptId& id) const;

    QString m_root;
};

} // namespace ramplight
