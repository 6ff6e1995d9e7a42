// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QList>
#include <QString>
#include <QStringList>

namespace ramplight::test {

/// What must not be written down anywhere, looked for in the forms in which it would be: plain, as
/// UTF-16, in hex, in base64, or as a hash without salt.
class Secrets
{
public:
    /// name: what it is, for whoever reads why a test failed.
    void add(const QString& name, const QByteArray& secret);
    /// What these bytes hold: "the new PIN, in hex". Digits within a longer number, or hash, are
    /// none of ours.
    [[nodiscard]] QStringList in(const QByteArray& bytes) const;
    /// The same of every file below a folder: "ramplight.log: the new PIN, in hex". One that cannot
    /// be read is told, too. spared: names that are not looked at.
    [[nodiscard]] QStringList below(const QString& folder, const QStringList& spared = {}) const;

private:
    struct Form
    {
        QString told;
        QByteArray bytes;
        bool isText = false; ///< may be a part of a longer number
    };
    QList<Form> m_forms;
};

} // namespace ramplight::test
