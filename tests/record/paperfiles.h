// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QFile>
#include <QImage>
#include <QProcess>
#include <QTemporaryDir>

#include <tl/expected.hpp>

namespace ramplight::test {

/// What the tests of paper share: a folder of their own, and other programs that read what lies in
/// it.
class PaperFiles
{
protected:
    struct Ran
    {
        int code = -1;
        QString out;
    };

    static Ran run(const QString& program, const QStringList& arguments)
    {
        QProcess process;
        process.setProcessChannelMode(QProcess::MergedChannels);
        process.start(program, arguments);
        if (!process.waitForFinished())
            return {-1, process.errorString()};
        return {process.exitCode(), QString::fromUtf8(process.readAll())};
    }

    template <class T>
    static QString faultOf(const tl::expected<T, QString>& result)
    {
        return result.has_value() ? QString() : result.error();
    }

    [[nodiscard]] QString write(const QString& name, const QByteArray& bytes) const
    {
        const QString path = m_folder.filePath(name);
        QFile file(path);
        return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() ? path
                                                                                    : QString();
    }

    static QByteArray read(const QString& path)
    {
        QFile file(path);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }

    /// To be looked at, where RAMPLIGHT_PICTURES names a folder.
    static void keepPicture(const QString& name, const QImage& image)
    {
        if (const QString keep = qEnvironmentVariable("RAMPLIGHT_PICTURES"); !keep.isEmpty())
            image.save(QStringLiteral("%1/%2.png").arg(keep, name));
    }

    QTemporaryDir m_folder;
};

} // namespace ramplight::test
