// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "cli/house.h"
#include "record/recordmodel.h"
#include "record/recordstamp.h"

#include <QStringList>
#include <QTextStream>

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

// The sub-commands of the program: the same services without the screen. Exit codes are those of
// sysexits(3).
namespace ramplight::cli {

enum ExitCode {
    Ok = 0,
    Different = 1,    ///< what was asked to be compared or verified is not whole
    BadUsage = 64,    ///< EX_USAGE
    BadData = 65,     ///< EX_DATAERR: a file is not as it should be
    NoInput = 66,     ///< EX_NOINPUT
    Unavailable = 69, ///< EX_UNAVAILABLE: the store cannot be reached
    NoPermission = 77 ///< EX_NOPERM
};

/// What a sub-command works with. Output goes where the caller says, so that tests can read it.
struct Terminal
{
    QTextStream& out;
    QTextStream& err;
    /// One line without echo where a terminal is attached; null when there is none to be had.
    std::function<QString(const QString& prompt)> askSecretly;
    HousePaths paths;
    const Clock& clock;
};

struct Command
{
    QString name;
    QString usage; ///< "ramplight staff list | add NAME --skills ..."
    QString purpose;
    std::function<int(const QStringList& arguments, Terminal& terminal)> run;
};

/// Every sub-command that needs no screen.
[[nodiscard]] const std::vector<Command>& commands();
/// Null when there is none of that name.
[[nodiscard]] const Command* find(const QString& name);
[[nodiscard]] QString help();

// ---- for the sub-commands themselves

/// The value behind an option, taken out of the list; null when it is not there.
[[nodiscard]] QString takeOption(QStringList& arguments, const QString& option);
[[nodiscard]] bool takeFlag(QStringList& arguments, const QString& flag);
int usage(Terminal& terminal, const Command& command);
int failed(Terminal& terminal, const QString& words, ExitCode code);
/// What a whole ledger that was brought somewhere else has against the rules; nothing where it has
/// nothing.
void sayAgainstRules(const QStringList& told, Terminal& terminal);
/// What is in a file, at most so many bytes of it; or why it cannot be read, in words.
[[nodiscard]] tl::expected<QByteArray, QString> readFile(const QString& path,
                                                         std::optional<qint64> most = {});
/// Writes a whole file or nothing; says why not, and answers with that code then.
int writeWhole(const QString& path, const QByteArray& bytes, Terminal& terminal,
               ExitCode otherwise = Unavailable);
/// Opens the workshop, or says why not and returns null.
[[nodiscard]] std::unique_ptr<OpenHouse> openOrSay(Terminal& terminal, bool mayMake = false);
/// The car with this stock number, in the house or the last that left, or says why not. For
/// commands that read. Error: the exit code.
[[nodiscard]] tl::expected<CarId, int> carCalled(const QString& stockNumber, OpenHouse& house,
                                                 Terminal& terminal);
/// The person whom --as names, or the first who may manage.
[[nodiscard]] tl::expected<PersonId, QString> actor(const SiteState& site, const QString& asName,
                                                    Right right);
[[nodiscard]] CommandId freshCommand();
/// A car's record as the ledger has it now. Error: words.
[[nodiscard]] tl::expected<RecordModel, QString> recordOf(const CarId& car, const SiteState& site,
                                                          OpenHouse& house, Moment now);
/// Seals records with the site's key.
[[nodiscard]] RecordSealer sealerOf(const SqlLedger& ledger);

struct PhotosTaken
{
    std::size_t taken = 0;
    std::size_t others = 0; ///< were there before, or could not be read
    QStringList faults;     ///< of those that could not be read
};
/// Every photo of one keeper into the other. Error: the one cannot be looked through or the other
/// not be written, in words; what was taken over until then stays.
[[nodiscard]] tl::expected<PhotosTaken, QString> takePhotos(const PhotoKeeper& from,
                                                            PhotoKeeper& to);
/// "1 photo", "12 photos"
[[nodiscard]] QString photosWords(std::size_t count);

int importFiles(const QStringList& arguments, Terminal& terminal);
int verify(const QStringList& arguments, Terminal& terminal);
int rebuild(const QStringList& arguments, Terminal& terminal);
int record(const QStringList& arguments, Terminal& terminal);
int tag(const QStringList& arguments, Terminal& terminal);
int backup(const QStringList& arguments, Terminal& terminal);
int restoreHouse(const QStringList& arguments, Terminal& terminal);
int migrateStore(const QStringList& arguments, Terminal& terminal); ///< between SQLite and a server
int prepareServer(const QStringList& arguments, Terminal& terminal);
int key(const QStringList& arguments, Terminal& terminal);
int doorSheet(const QStringList& arguments, Terminal& terminal);
int exportFiles(const QStringList& arguments, Terminal& terminal);
int staff(const QStringList& arguments, Terminal& terminal);
int bay(const QStringList& arguments, Terminal& terminal);
int catalogue(const QStringList& arguments, Terminal& terminal);
int catalogueFile(const QStringList& arguments, Terminal& terminal); ///< its export and import
int tool(const QStringList& arguments, Terminal& terminal);
int houseFile(const QStringList& arguments, Terminal& terminal);
int read(const QStringList& arguments, Terminal& terminal); ///< a spoken walk-round
int plan(const QStringList& arguments, Terminal& terminal);
int tidy(const QStringList& arguments, Terminal& terminal);
int photos(const QStringList& arguments, Terminal& terminal);
int demo(const QStringList& arguments, Terminal& terminal);

} // namespace ramplight::cli
