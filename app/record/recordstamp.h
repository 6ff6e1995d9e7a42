// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/moment.h"

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <functional>
#include <vector>

// What a record carries so that it can be held against the ledger later: a few values as JSON, in a
// PDF as an attached file, in an HTML file as one of its meta elements, on paper as a code; and in
// a file a hash over all that it shows, sealed with the site's key. The hash tells what an ordinary
// editor changed, the seal tells who changes the hash with it. Blocks while it works on memory; any
// thread.
namespace ramplight {

/// A part of the record with a hash of its own.
struct StampPart
{
    QString part; ///< a field of RecordModel, or "findings/3", "operations/12"
    QString hash; ///< the first 64 bits of the SHA-256 of its JSON, lower-case hex

    static constexpr auto fields =
        fieldList(field("part", &StampPart::part), field("hash", &StampPart::hash));
    friend bool operator==(const StampPart&, const StampPart&) = default;
};

struct RecordStamp
{
    QString car;
    QString stockNumber;
    qint64 seq = 0;
    QString headHash;    ///< of the car's chain at seq, lower-case hex
    QString modelDigest; ///< RecordModel::digest()
    Moment madeAt;
    std::vector<StampPart> parts = {}; ///< empty where nothing but the digest is known

    static constexpr auto fields = fieldList(
        field("car", &RecordStamp::car), field("stockNumber", &RecordStamp::stockNumber),
        field("seq", &RecordStamp::seq), field("headHash", &RecordStamp::headHash),
        field("madeAt", &RecordStamp::madeAt), field("modelDigest", &RecordStamp::modelDigest),
        field("parts", &RecordStamp::parts));
    friend bool operator==(const RecordStamp&, const RecordStamp&) = default;
};

/// Seals with the site's key. Without a digest records are made unsealed.
struct RecordSealer
{
    QString keyId = {};                                       ///< tells keys apart, no secret
    std::function<QByteArray(const QByteArray&)> digest = {}; ///< HMAC-SHA-256
    /// The same with a key that the site had before; no bytes: it knows none of that id.
    std::function<QByteArray(const QString& keyId, const QByteArray&)> pastDigest = {};
};

enum class RecordSeal {
    None,
    OfAnotherKey, ///< cannot be checked with this one
    Broken,       ///< what it covers was changed by somebody without the key
    Whole,
};

/// An entry of a document's outline.
struct Bookmark
{
    QString title;
    int level = 1;  ///< 1, or 2 within the one before of level 1
    int page = 0;   ///< from 0 on
    double top = 0; ///< points from the page's lower edge, as PDF counts
};

/// What a reader program shows of a document beside its pages.
struct PdfDress
{
    QString title;
    QString language; ///< BCP 47
    std::vector<Bookmark> bookmarks = {};
};

/// The same PDF with the stamp in it, with title, language and outline. The same record gives the
/// same bytes. Error: words.
[[nodiscard]] tl::expected<QByteArray, QString> stampPdf(const QByteArray& pdf,
                                                         const RecordStamp& stamp,
                                                         const PdfDress& dress,
                                                         const RecordSealer& sealer);
/// The same HTML with the stamp right behind its `<head>`.
[[nodiscard]] tl::expected<QByteArray, QString>
stampHtml(const QByteArray& html, const RecordStamp& stamp, const RecordSealer& sealer);
/// What the code on the first page says, without the parts: "RLR1:T-312:...".
[[nodiscard]] QString stampCode(const RecordStamp& stamp);
[[nodiscard]] bool isStampCode(const QByteArray& bytes);

/// From a PDF, an HTML file or a code. Errors, in words: neither of them, no stamp in it, a stamp
/// that cannot be read, something that was changed since it was made.
[[nodiscard]] tl::expected<RecordStamp, QString> readStamp(const QByteArray& bytes);
/// Of a file that readStamp() could read; a code has none.
[[nodiscard]] RecordSeal sealOf(const QByteArray& bytes, const RecordSealer& sealer);
} // namespace ramplight
