// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/say.h"
#include "record/stampfile.h"

#include <QCryptographicHash>

// The stamp is a meta element whose value is base64: nothing in it needs escaping. The hash covers
// every byte of the file but that value.
namespace ramplight {

namespace {

constexpr QByteArrayView headBegin("<head>\n");
constexpr QByteArrayView begin("<meta name=\"ramplight-record\" content=\"");
constexpr QByteArrayView end("\">\n");
// Its place is right behind the head's begin.
constexpr qsizetype latestBegin = 256;

QString hashOf(QByteArrayView before, QByteArrayView after)
{
    QCryptographicHash hash(QCryptographicHash::Sha256);
    hash.addData(before);
    hash.addData(after);
    return QString::fromLatin1(hash.result().toHex());
}

} // namespace

tl::expected<QByteArray, QString> stampHtml(const QByteArray& html, const RecordStamp& stamp,
                                            const RecordSealer& sealer)
{
    const qsizetype head = QByteArrayView(html).indexOf(headBegin);
    if (head < 0 || head > latestBegin)
        return tl::unexpected(say("The record could not be stamped: it has no head."));
    QByteArray before = html.left(head + headBegin.size());
    before.append(begin);
    QByteArray after(end.data(), end.size());
    after.append(QByteArrayView(html).sliced(head + headBegin.size()));
    return before + stampJson(sealed({stamp, hashOf(before, after)}, sealer)).toBase64() + after;
}

tl::expected<StampFile, QString> readHtmlStamp(const QByteArray& html)
{
    const QByteArrayView all(html);
    const qsizetype value =
        all.first(std::min(all.size(), latestBegin + begin.size())).indexOf(begin) + begin.size();
    if (value < begin.size())
        return tl::unexpected(say("This file carries no stamp of a handover record."));
    const qsizetype close = all.indexOf('"', value);
    if (close < 0 || close - value > 2 * mostStampBytes)
        return tl::unexpected(say("This file carries no stamp of a handover record."));
    const auto json = QByteArray::fromBase64Encoding(html.mid(value, close - value),
                                                     QByteArray::Base64Encoding |
                                                         QByteArray::AbortOnBase64DecodingErrors);
    if (!json)
        return tl::unexpected(say("The stamp cannot be read: %1.").arg(say("it is no base64")));
    const auto file = readStampJson(*json);
    if (!file)
        return tl::unexpected(file.error());
    if (file->pages != hashOf(all.first(value), all.sliced(close)))
        return tl::unexpected(say("This file was changed after it was made."));
    return *file;
}

} // namespace ramplight
