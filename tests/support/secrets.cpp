// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/secrets.h"

#include <QCryptographicHash>
#include <QDir>
#include <QDirIterator>
#include <QFile>

#include <algorithm>
#include <cctype>

namespace ramplight::test {

namespace {

/// What stays of it in base64 when so many bytes stand in front of it, whatever they are.
QByteArray inBase64(const QByteArray& secret, qsizetype before, QByteArray::Base64Options options)
{
    QByteArray text = (QByteArray(before, '\0') + secret).toBase64(options);
    if ((before + secret.size()) * 8 % 6 != 0)
        text.chop(1); // it has bits of what follows
    return text.mid((before * 8 + 5) / 6);
}

QByteArray inUtf16(const QByteArray& secret, bool bigEnd)
{
    QByteArray bytes;
    for (const char c : secret) {
        if (bigEnd)
            bytes.append('\0');
        bytes.append(c);
        if (!bigEnd)
            bytes.append('\0');
    }
    return bytes;
}

bool isHexDigit(char c)
{
    return std::isxdigit(static_cast<unsigned char>(c)) != 0;
}

/// It stands in a longer row of hex digits, as hashes and times have them.
bool isPartOfANumber(const QByteArray& bytes, qsizetype at, qsizetype size)
{
    const auto begin = bytes.begin() + at;
    if (!std::all_of(begin, begin + size, isHexDigit))
        return false;
    qsizetype around = 0;
    for (qsizetype i = at - 1; i >= 0 && isHexDigit(bytes.at(i)); --i)
        ++around;
    for (qsizetype i = at + size; i < bytes.size() && isHexDigit(bytes.at(i)); ++i)
        ++around;
    return around > 1;
}

} // namespace

void Secrets::add(const QString& name, const QByteArray& secret)
{
    const auto form = [&](const char* how, const QByteArray& bytes, bool isText = false) {
        m_forms.append({QStringLiteral("%1, %2").arg(name, QLatin1StringView(how)), bytes, isText});
    };
    form("plain", secret, true);
    form("as UTF-16", inUtf16(secret, false));
    form("as UTF-16", inUtf16(secret, true));
    form("in hex", secret.toHex());
    form("in hex", secret.toHex().toUpper());
    for (qsizetype before = 0; before < 3; ++before)
        for (const auto alphabet : {QByteArray::Base64Encoding, QByteArray::Base64UrlEncoding})
            form("in base64", inBase64(secret, before, alphabet | QByteArray::OmitTrailingEquals));
    for (const auto kind : {QCryptographicHash::Md5, QCryptographicHash::Sha1,
                            QCryptographicHash::Sha256, QCryptographicHash::Blake2b_256}) {
        const QByteArray hash = QCryptographicHash::hash(secret, kind);
        form("as a bare hash", hash);
        form("as a bare hash", hash.toHex());
        form("as a bare hash", hash.toBase64(QByteArray::OmitTrailingEquals));
    }
}

QStringList Secrets::in(const QByteArray& bytes) const
{
    QStringList found;
    for (const Form& form : m_forms)
        for (qsizetype at = bytes.indexOf(form.bytes); at >= 0;
             at = bytes.indexOf(form.bytes, at + 1)) {
            if (form.isText && isPartOfANumber(bytes, at, form.bytes.size()))
                continue;
            found.append(form.told);
            break;
        }
    found.removeDuplicates();
    return found;
}

QStringList Secrets::below(const QString& folder, const QStringList& spared) const
{
    QStringList found;
    const QDir root(folder);
    QDirIterator files(folder, QDir::Files | QDir::Hidden | QDir::System,
                       QDirIterator::Subdirectories);
    while (files.hasNext()) {
        const QString path = files.next();
        const QString name = root.relativeFilePath(path);
        if (spared.contains(name))
            continue;
        QFile file(path);
        if (!file.open(QIODevice::ReadOnly)) {
            found.append(QStringLiteral("%1: cannot be read").arg(name));
            continue;
        }
        for (const QString& one : in(file.readAll()))
            found.append(QStringLiteral("%1: %2").arg(name, one));
    }
    return found;
}

} // namespace ramplight::test
