// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/moment.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

// What a PDF carries so that it can be held against the ledger later: a small JSON file attached to
// it, and a hash over its pages. The hash has no key: it shows what an ordinary PDF editor changed,
// the ledger shows the rest. Blocks while it works on memory; any thread.
namespace ramplight {

struct RecordStamp
{
    QString car;
    QString stockNumber;
    qint64 seq = 0;
    QString headHash;    ///< of the car's chain at seq, lower-case hex
    QString modelDigest; ///< RecordModel::digest()
    Moment madeAt;

    static constexpr auto fields = std::tuple{field("car", &RecordStamp::car),
                                              field("stockNumber", &RecordStamp::stockNumber),
                                              field("seq", &RecordStamp::seq),
                                              field("headHash", &RecordStamp::headHash),
                                              field("modelDigest", &RecordStamp::modelDigest),
                                              field("madeAt", &RecordStamp::madeAt)};
    friend bool operator==(const RecordStamp&, const RecordStamp&) = default;
};

/// The same PDF with the stamp in it. Error: words.
[[nodiscard]] tl::expected<QByteArray, QString> stampPdf(const QByteArray& pdf,
                                                         const RecordStamp& stamp);
/// Errors, in words: no PDF, no stamp in it, a stamp that cannot be read, pages that were changed
/// since the stamp was made.
[[nodiscard]] tl::expected<RecordStamp, QString> readStamp(const QByteArray& pdf);

} // namespace ramplight
