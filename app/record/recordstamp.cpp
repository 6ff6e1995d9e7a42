// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/say.h"
#include "record/stampfile.h"

#include <QJsonDocument>
#include <QUrl>

#include <utility>

namespace ramplight {

namespace {

// A record with two hundred photos stays far below; more than this is not read.
constexpr qsizetype mostRecordBytes = 256LL * 1024 * 1024;
constexpr QByteArrayView codePrefix("RLR1:");
constexpr qsizetype mostCodeBytes = 2048;
constexpr qsizetype codeFields = 7; // with the prefix
constexpr qsizetype hashBytes = 32;

/// Hex as it is kept, in a third less letters.
QByteArray shortened(const QString& hex)
{
    return QByteArray::fromHex(hex.toLatin1())
        .toBase64(QByteArray::Base64UrlEncoding | QByteArray::OmitTrailingEquals);
}

QString lengthened(const QByteArray& code)
{
    const auto bytes = QByteArray::fromBase64Encoding(
        code, QByteArray::Base64UrlEncoding | QByteArray::AbortOnBase64DecodingErrors);
    const QByteArray hash = bytes ? *bytes : QByteArray();
    return hash.size() == hashBytes ? QString::fromLatin1(hash.toHex()) : QString();
}

tl::expected<RecordStamp, QString> readCode(const QByteArray& bytes)
{
    const QList<QByteArray> fields = bytes.trimmed().split(':');
    RecordStamp stamp;
    bool countIsNumber = false;
    bool timeIsNumber = false;
    if (bytes.size() <= mostCodeBytes && fields.size() == codeFields) {
        stamp = {QUrl::fromPercentEncoding(fields[2]),
                 QUrl::fromPercentEncoding(fields[1]),
                 fields[3].toLongLong(&countIsNumber),
                 lengthened(fields[5]),
                 lengthened(fields[6]),
                 Moment{fields[4].toLongLong(&timeIsNumber)}};
    }
    if (!countIsNumber || !timeIsNumber || stamp.seq <= 0 || stamp.car.isEmpty() ||
        stamp.headHash.isEmpty() || stamp.modelDigest.isEmpty())
        return tl::unexpected(say("This code is not complete."));
    return stamp;
}

tl::expected<StampFile, QString> readFile(const QByteArray& bytes)
{
    return bytes.startsWith("<!DOCTYPE html>") ? readHtmlStamp(bytes) : readPdfStamp(bytes);
}

} // namespace

QByteArray stampJson(const StampFile& file)
{
    return QJsonDocument(toJson(file)).toJson(QJsonDocument::Compact);
}

StampFile sealed(StampFile file, const RecordSealer& sealer)
{
    file.keyId.clear();
    file.seal.clear();
    if (!sealer.digest)
        return file;
    // Named, so that no other seal of the site can stand for it.
    const QByteArray digest = sealer.digest("ramplight record 1\n" + stampJson(file));
    file.keyId = sealer.keyId;
    file.seal = QString::fromLatin1(digest.toHex());
    return file;
}

tl::expected<StampFile, QString> readStampJson(const QByteArray& json)
{
    StampFile file;
    if (const CodecError error = fromJson(QJsonDocument::fromJson(json).object(), file);
        !error.isEmpty())
        return tl::unexpected(say("The stamp cannot be read: %1.").arg(error.words()));
    if (file.stamp.car.isEmpty() || file.stamp.seq <= 0 || file.stamp.modelDigest.isEmpty())
        return tl::unexpected(say("The stamp is not complete."));
    return file;
}

QString stampCode(const RecordStamp& stamp)
{
    const QByteArrayList fields{
        codePrefix.chopped(1).toByteArray(), QUrl::toPercentEncoding(stamp.stockNumber),
        QUrl::toPercentEncoding(stamp.car),  QByteArray::number(stamp.seq),
        QByteArray::number(stamp.madeAt.ms), shortened(stamp.headHash),
        shortened(stamp.modelDigest)};
    return QString::fromLatin1(fields.join(':'));
}

bool isStampCode(const QByteArray& bytes)
{
    return bytes.startsWith(codePrefix);
}

tl::expected<RecordStamp, QString> readStamp(const QByteArray& bytes)
{
    if (bytes.size() > mostRecordBytes)
        return tl::unexpected(say("This file is too large to be a handover record."));
    if (isStampCode(bytes))
        return readCode(bytes);
    auto file = readFile(bytes);
    if (!file)
        return tl::unexpected(file.error());
    return std::move(file->stamp);
}

RecordSeal sealOf(const QByteArray& bytes, const RecordSealer& sealer)
{
    if (isStampCode(bytes))
        return RecordSeal::None;
    const auto file = readFile(bytes);
    if (!file || file->seal.isEmpty())
        return RecordSeal::None;
    RecordSealer with = sealer;
    if (file->keyId != sealer.keyId && sealer.pastDigest &&
        !sealer.pastDigest(file->keyId, {}).isEmpty()) {
        with.keyId = file->keyId;
        with.digest = [&](const QByteArray& of) { return sealer.pastDigest(file->keyId, of); };
    }
    if (file->keyId != with.keyId || !with.digest)
        return RecordSeal::OfAnotherKey;
    return sealed(*file, with).seal == file->seal ? RecordSeal::Whole : RecordSeal::Broken;
}

} // namespace ramplight
