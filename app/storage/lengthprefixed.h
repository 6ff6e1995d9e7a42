// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>
#include <QtEndian>

namespace ramplight {

/// Fields one after the other, each behind its length as 8 bytes, big-endian; numbers in decimal.
/// What is hashed or sealed this way cannot be cut into other fields. The first says what it is.
class LengthPrefixed
{
public:
    explicit LengthPrefixed(const char* purpose) { add(QByteArray(purpose)); }

    LengthPrefixed& add(const QByteArray& bytes)
    {
        char length[8];
        qToBigEndian(static_cast<quint64>(bytes.size()), length);
        m_bytes.append(length, sizeof length);
        m_bytes.append(bytes);
        return *this;
    }
    LengthPrefixed& add(const QString& text) { return add(text.toUtf8()); }
    LengthPrefixed& add(qint64 number) { return add(QByteArray::number(number)); }
    [[nodiscard]] const QByteArray& bytes() const { return m_bytes; }

private:
    QByteArray m_bytes;
};

} // namespace ramplight
