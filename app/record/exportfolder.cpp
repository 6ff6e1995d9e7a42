// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/exportfolder.h"

#include "domain/say.h"

#include <QCryptographicHash>
#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSaveFile>
#include <QTemporaryDir>

#include <algorithm>
#include <set>

namespace ramplight {

namespace {

constexpr int folderFormat = 1;
constexpr qint64 mostManifestBytes = 64LL * 1024 * 1024;

QString manifestName()
{
    return QStringLiteral("manifest.json");
}

QString hashOf(const QByteArray& bytes)
{
    return QString::fromLatin1(QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex());
}

/// Below the folder and nowhere else.
bool staysBelow(const QString& path)
{
    if (path.isEmpty() || path.contains(QLatin1Char('\\')) || path.startsWith(QLatin1Char('/')))
        return false;
    const QStringList parts = path.split(QLatin1Char('/'));
    return std::ranges::none_of(parts, [](const QString& part) {
        return part.isEmpty() || part == QLatin1String(".") || part == QLatin1String("..");
    });
}

tl::expected<QString, QString> hashOfFile(const QString& path)
{
    QFile file(path);
    QCryptographicHash hash(QCryptographicHash::Sha256);
    if (!file.open(QIODevice::ReadOnly) || !hash.addData(&file))
        return tl::unexpected(say("it cannot be read"));
    return QString::fromLatin1(hash.result().toHex());
}

/// Brought to the disk. Nothing here asks for permissions, which a stick's file system may not
/// have.
bool writeWhole(const QString& path, const QByteArray& bytes)
{
    QSaveFile file(path);
    return file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size() && file.commit();
}

struct Listed
{
    QString path;
    qint64 bytes = 0;
    QString sha256;
};

/// One line of the manifest against what lies there; empty: as it should be.
QString faultOf(const QString& folder, const Listed& listed)
{
    const QFileInfo info(QDir(folder).filePath(listed.path));
    if (info.isSymLink())
        return say("%1 is a link to somewhere else").arg(listed.path);
    if (!info.isFile())
        return say("%1 is missing").arg(listed.path);
    if (info.size() != listed.bytes)
        return say("%1 has changed: %2 bytes instead of %3")
            .arg(listed.path)
            .arg(info.size())
            .arg(listed.bytes);
    const auto hash = hashOfFile(info.filePath());
    if (!hash)
        return QStringLiteral("%1: %2").arg(listed.path, hash.error());
    return *hash == listed.sha256 ? QString() : say("%1 has changed").arg(listed.path);
}

tl::expected<std::vector<Listed>, QString> readManifest(const QByteArray& bytes)
{
    const QJsonObject manifest = QJsonDocument::fromJson(bytes).object();
    const QJsonValue files = manifest.value(QLatin1StringView("files"));
    if (manifest.value(QLatin1StringView("format")).toInt() != folderFormat || !files.isArray())
        return tl::unexpected(say("manifest.json is none that this program wrote."));
    std::vector<Listed> all;
    const QJsonArray array = files.toArray();
    for (const QJsonValue& value : array) {
        const QJsonObject one = value.toObject();
        const Listed listed{one.value(QLatin1StringView("path")).toString(),
                            one.value(QLatin1StringView("bytes")).toInteger(-1),
                            one.value(QLatin1StringView("sha256")).toString()};
        if (!staysBelow(listed.path) || listed.bytes < 0 || listed.sha256.size() != 64)
            return tl::unexpected(
                say("manifest.json names a file that it cannot name: %1").arg(listed.path));
        all.push_back(listed);
    }
    return all;
}

} // namespace

QString folderNameOf(const QString& stockNumber)
{
    QString name = stockNumber;
    for (QChar& c : name)
        if (!c.isLetterOrNumber() && c != QLatin1Char('-'))
            c = QLatin1Char('_');
    return name.isEmpty() ? QStringLiteral("_") : name;
}

ExportFolder::ExportFolder(QString folder, QString draft)
    : m_folder(std::move(folder))
    , m_draft(std::move(draft))
{
}

ExportFolder::~ExportFolder()
{
    if (!m_finished)
        QDir(m_draft).removeRecursively();
}

tl::expected<std::unique_ptr<ExportFolder>, QString> ExportFolder::begin(const QString& folder)
{
    const QString place = QDir::cleanPath(QDir().absoluteFilePath(folder));
    const QFileInfo info(place);
    if (info.exists() && (!info.isDir() || !QDir(place).isEmpty(QDir::AllEntries | QDir::Hidden |
                                                                QDir::NoDotAndDotDot)))
        return tl::unexpected(
            say("%1 is there already. Name a folder that is not there yet, or an empty one.")
                .arg(place));
    if (!QDir().mkpath(info.path()))
        return tl::unexpected(say("The folder %1 cannot be made.").arg(info.path()));
    QTemporaryDir draft(QStringLiteral("%1/.%2.XXXXXX").arg(info.path(), info.fileName()));
    if (!draft.isValid())
        return tl::unexpected(
            say("Nothing can be written in %1: %2.").arg(info.path(), draft.errorString()));
    draft.setAutoRemove(false);
    return std::unique_ptr<ExportFolder>(new ExportFolder(place, draft.path()));
}

tl::expected<void, QString> ExportFolder::add(const QString& path, const QByteArray& bytes)
{
    const QString file = QDir(m_draft).filePath(path);
    if (!staysBelow(path) || path == manifestName() || !QDir().mkpath(QFileInfo(file).path()) ||
        !writeWhole(file, bytes))
        return tl::unexpected(
            say("%1 cannot be written. Is the disk full? Nothing was exported.").arg(path));
    m_files.append(QJsonObject{{QStringLiteral("path"), path},
                               {QStringLiteral("bytes"), bytes.size()},
                               {QStringLiteral("sha256"), hashOf(bytes)}});
    return {};
}

tl::expected<QString, QString> ExportFolder::finish(const ExportAbout& about)
{
    QJsonObject manifest{
        {QStringLiteral("format"), folderFormat}, {QStringLiteral("site"), about.site},
        {QStringLiteral("demo"), about.demo},     {QStringLiteral("madeAt"), about.madeAt},
        {QStringLiteral("cars"), about.cars},     {QStringLiteral("files"), m_files}};
    if (about.stockNumber.isEmpty()) {
        manifest.insert(QStringLiteral("from"), about.from.toString(Qt::ISODate));
        manifest.insert(QStringLiteral("to"), about.to.toString(Qt::ISODate));
    } else {
        manifest.insert(QStringLiteral("stockNumber"), about.stockNumber);
    }
    const QByteArray bytes = QJsonDocument(manifest).toJson(QJsonDocument::Indented);
    const auto failed = [this] {
        return tl::unexpected(
            say("%1 cannot be written. Is the disk full? Nothing was exported.").arg(m_folder));
    };
    if (!writeWhole(QDir(m_draft).filePath(manifestName()), bytes))
        return failed();
    // A place that was empty is taken by the whole folder.
    QFile::setPermissions(m_draft, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner |
                                       QFile::ReadGroup | QFile::ExeGroup);
    QDir().rmdir(m_folder);
    if (!QDir().rename(m_draft, m_folder))
        return failed();
    m_finished = true;
    return hashOf(bytes);
}

tl::expected<ExportCheck, QString> checkExport(const QString& folder)
{
    QFile file(QDir(folder).filePath(manifestName()));
    if (!file.open(QIODevice::ReadOnly) || file.size() > mostManifestBytes)
        return tl::unexpected(say("There is no manifest.json in %1 that can be read.").arg(folder));
    const QByteArray bytes = file.readAll();
    const auto listed = readManifest(bytes);
    if (!listed)
        return tl::unexpected(listed.error());
    ExportCheck check;
    check.files = static_cast<int>(listed->size());
    check.manifest = hashOf(bytes);
    std::set<QString> known{manifestName()};
    for (const Listed& one : *listed) {
        if (!known.insert(one.path).second)
            check.faults.append(say("%1 is in the manifest twice").arg(one.path));
        if (const QString fault = faultOf(folder, one); !fault.isEmpty())
            check.faults.append(fault);
    }
    // One relative to where the program stands would not compare.
    const QDir root(QDir(folder).absolutePath());
    QDirIterator inside(root.path(),
                        QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot,
                        QDirIterator::Subdirectories);
    while (inside.hasNext()) {
        const QString path = root.relativeFilePath(inside.next());
        const bool folderItself = inside.fileInfo().isDir() && !inside.fileInfo().isSymLink();
        if (!folderItself && !known.contains(path))
            check.faults.append(say("%1 is not in the manifest").arg(path));
    }
    std::ranges::sort(check.faults);
    return check;
}

} // namespace ramplight
