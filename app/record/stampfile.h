// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/recordstamp.h"

// Inside of the stamps, for the files that write and read them.
namespace ramplight {

/// The stamp as it stands in a file.
struct StampFile
{
    RecordStamp stamp;
    QString pages; ///< SHA-256 over what the file shows; of a PDF drawing commands and pictures
    QString keyId = {};
    QString seal = {};  ///< over the other fields, hex; empty: none
    QString shown = {}; ///< of a PDF: SHA-256 over all that makes its pages, typefaces too

    static constexpr auto fields =
        fieldList(field("stamp", &StampFile::stamp), field("pages", &StampFile::pages),
                  field("keyId", &StampFile::keyId), field("seal", &StampFile::seal),
                  field("shown", &StampFile::shown));
    friend bool operator==(const StampFile&, const StampFile&) = default;
};

constexpr qsizetype mostStampBytes = 64LL * 1024;

[[nodiscard]] QByteArray stampJson(const StampFile& file);
[[nodiscard]] StampFile sealed(StampFile file, const RecordSealer& sealer);
/// Errors: no JSON of a stamp, or not a complete one.
[[nodiscard]] tl::expected<StampFile, QString> readStampJson(const QByteArray& json);
[[nodiscard]] tl::expected<StampFile, QString> readPdfStamp(const QByteArray& pdf);
[[nodiscard]] tl::expected<StampFile, QString> readHtmlStamp(const QByteArray& html);

} // namespace ramplight
