// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "backup/carryover.h"

#include "evidence/durablefile.h"

#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <array>
#include <unistd.h>

namespace ramplight {
namespace {

constexpr qint64 pieceBytes = qint64{1} << 20;

class Carrying
{
public:
    Carrying(const QString& from, const QString& to)
        : m_from(from)
        , m_to(to)
    {
    }

    using Done = tl::expected<void, QString>;

    /// Paths within the two folders; empty: themselves.
    Done takeFolder(const QString& path, const std::function<bool(const QString&)>& staysBehind)
    {
        const QString here = m_from + path;
        const QString there = m_to + path;
        if (!QFileInfo(here).isReadable()) {
            m_unread.append(path.mid(1));
            return {};
        }
        if (!makeFolderDurably(there))
            return tl::unexpected(there);
        for (const QFileInfo& one : QDir(here).entryInfoList(
                 QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot,
                 QDir::Name)) {
            if (staysBehind(one.fileName()))
                continue;
            const QString name = path + QLatin1Char('/') + one.fileName();
            Done taken;
            if (one.isSymLink())
                taken = takeLink(name);
            else if (one.isDir())
                taken = takeFolder(name, [](const QString&) { return false; });
            else if (one.isFile())
                taken = takeFile(name);
            if (!taken)
                return taken;
        }
        QFile::setPermissions(there, QFile::permissions(here));
        if (!bringToDisk(there))
            return tl::unexpected(there);
        return {};
    }

    [[nodiscard]] const QStringList& unread() const { return m_unread; }

private:
    Done takeLink(const QString& path)
    {
        std::array<char, 4096> target{};
        const auto length = ::readlink(QFile::encodeName(m_from + path).constData(), target.data(),
                                       target.size() - 1);
        if (length < 0)
            m_unread.append(path.mid(1));
        else if (::symlink(target.data(), QFile::encodeName(m_to + path).constData()) != 0)
            return tl::unexpected(m_to + path);
        return {};
    }

    Done takeFile(const QString& path)
    {
        QFile from(m_from + path);
        QFile to(m_to + path);
        if (!from.open(QIODevice::ReadOnly)) {
            m_unread.append(path.mid(1));
            return {};
        }
        if (!to.open(QIODevice::WriteOnly | QIODevice::Unbuffered))
            return tl::unexpected(to.fileName());
        for (QByteArray piece = from.read(pieceBytes); !piece.isEmpty();
             piece = from.read(pieceBytes))
            if (to.write(piece) != piece.size())
                return tl::unexpected(to.fileName());
        if (from.error() != QFileDevice::NoError) {
            to.remove();
            m_unread.append(path.mid(1));
            return {};
        }
        to.setFileTime(QFileInfo(from).lastModified(), QFileDevice::FileModificationTime);
        to.close();
        if (!bringToDisk(to.fileName()))
            return tl::unexpected(to.fileName());
        to.setPermissions(from.permissions());
        return {};
    }

    QString m_from;
    QString m_to;
    QStringList m_unread;
};

} // namespace

tl::expected<QStringList, QString>
carryOver(const QString& from, const QString& to,
          const std::function<bool(const QString& name)>& staysBehind)
{
    Carrying carrying(from, to);
    if (auto taken = carrying.takeFolder({}, staysBehind); !taken)
        return tl::unexpected(taken.error());
    return carrying.unread();
}

} // namespace ramplight
