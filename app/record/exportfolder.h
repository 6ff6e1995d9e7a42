// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QDate>
#include <QJsonArray>
#include <QString>
#include <QStringList>

#include <tl/expected.hpp>

#include <memory>

// A folder of exported files with a manifest of their SHA-256 hashes, described by
// db/schema/export-manifest.schema.json. Blocks for the disk; any thread, one at a time for each
// folder.
namespace ramplight {

/// What a folder holds, as its manifest says.
struct ExportAbout
{
    QString site;
    bool demo = false;
    QString madeAt;      ///< ISO 8601, UTC
    QString stockNumber; ///< of the one car; empty: a period
    QDate from;          ///< of the period
    QDate to;
    QJsonArray cars; ///< what each car's folder is called, and its fingerprint
};

/// Written beside its place and moved there when it is whole, so that a folder of that name is a
/// whole one. Unless finish() was reached, nothing stays behind.
class ExportFolder
{
public:
    /// Errors, in words: there is something in that place already; it cannot be written.
    [[nodiscard]] static tl::expected<std::unique_ptr<ExportFolder>, QString>
    begin(const QString& folder);
    ~ExportFolder();
    ExportFolder(const ExportFolder&) = delete;
    ExportFolder& operator=(const ExportFolder&) = delete;

    /// path: below the folder, with / between its parts. Error: words.
    [[nodiscard]] tl::expected<void, QString> add(const QString& path, const QByteArray& bytes);
    /// The value is the manifest's own SHA-256, lower-case hex.
    [[nodiscard]] tl::expected<QString, QString> finish(const ExportAbout& about);

private:
    ExportFolder(QString folder, QString draft);

    QString m_folder;
    QString m_draft;
    QJsonArray m_files;
    bool m_finished = false;
};

/// "RL-2041", "RL_20_41": a stock number as the name of a folder.
[[nodiscard]] QString folderNameOf(const QString& stockNumber);

struct ExportCheck
{
    QStringList faults; ///< each file that is missing, changed or not in the manifest, in words
    int files = 0;      ///< in the manifest
    QString manifest;   ///< its own SHA-256
};
/// Holds a folder against its manifest. Error: there is no manifest that can be read.
[[nodiscard]] tl::expected<ExportCheck, QString> checkExport(const QString& folder);

} // namespace ramplight
