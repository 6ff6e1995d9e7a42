// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/commandline.h"
#include "cli/privacy.h"
#include "cli/whatifoption.h"
#include "evidence/durablefile.h"

#include <QFile>
#include <QFileInfo>
#include <QUuid>

#include <algorithm>

namespace ramplight::cli {

const std::vector<Command>& commands()
{
    static const std::vector<Command> all{
        {QStringLiteral("import"), QStringLiteral("import FILE... [--as NAME]"),
         QStringLiteral("take appraisal files in; the same file changes nothing the second time"),
         importFiles},
        {QStringLiteral("read"),
         QStringLiteral("read FILE [--json | --stock STOCKNO [--as NAME]] [--traffic left|right] "
                        "[--language CODE] | read --corrections"),
         QStringLiteral("draft the findings of a spoken walk-round from its transcript: WebVTT, "
                        "SubRip or text; with --stock as drafts on that car; --corrections: what "
                        "reviewers changed, in the form of the reader's tests"),
         read},
        {QStringLiteral("plan"),
         QStringLiteral("plan [--json] [--schedules N] [--what-if CHANGE]..."),
         QStringLiteral("who works on what and when, and when each car will be ready; --schedules: "
                        "looks at so many plans instead of a second's worth; --what-if: what would "
                        "come of a change, or of several, against the plan as it is, and nothing "
                        "is changed: %1; a day is today, tomorrow, mon to sun or one like "
                        "2031-05-04")
             .arg(whatIfForms()),
         plan},
        {QStringLiteral("record"), QStringLiteral("record STOCKNO --out FILE.pdf | FILE.html"),
         QStringLiteral(
             "write a car's handover record: pages to print, or one file for any browser"),
         record},
        {QStringLiteral("tag"), QStringLiteral("tag STOCKNO CORNER --out FILE.pdf"),
         QStringLiteral("write the tag that goes with a wheel; corner: FL, FR, RL, RR as seen from "
                        "the driver's seat, or SP"),
         tag},
        {QStringLiteral("doorsheet"), QStringLiteral("doorsheet STOCKNO --out FILE.pdf"),
         QStringLiteral("write the page that hangs in a car while it is in prep"), doorSheet},
        {QStringLiteral("export"),
         QStringLiteral("export car STOCKNO --out FOLDER | period FROM TO --out FOLDER | "
                        "check FOLDER"),
         QStringLiteral("write a car, or every car that was in the workshop on days like "
                        "2031-05-04, as JSON, photos, records and tables with a manifest of "
                        "hashes; hold such a folder against its manifest"),
         exportFiles},
        {QStringLiteral("verify"), QStringLiteral("verify [--record FILE | CODE]"),
         QStringLiteral("check the whole ledger and the photos, or one record: its PDF, its HTML, "
                        "or what the code "
                        "on its first page says"),
         verify},
        {QStringLiteral("tidy"), QStringLiteral("tidy [--do [--as NAME]]"),
         QStringLiteral("say which photos are kept longer than the house rules ask, and those that "
                        "no car needs; with --do remove them for good, which the ledger records"),
         tidy},
        {QStringLiteral("photos"), QStringLiteral("photos take FOLDER"),
         QStringLiteral("take the photos of a folder over to where the settings keep them"),
         photos},
        {QStringLiteral("rebuild"), QStringLiteral("rebuild"),
         QStringLiteral("make the read tables anew from the ledger"), rebuild},
        {QStringLiteral("backup"),
         QStringLiteral("backup [--to FOLDER] | list [--to FOLDER] | check BACKUP"),
         QStringLiteral("keep the whole workshop in a folder on another disk, checked; list what "
                        "is there; read one again from end to end"),
         backup},
        {QStringLiteral("restore"), QStringLiteral("restore BACKUP|FOLDER [--keys FILE]"),
         QStringLiteral("bring the workshop back from a backup, or from the newest whole one of a "
                        "folder; what is there is set aside, and where its file is damaged, what "
                        "was done since comes along as far as it is whole"),
         restoreHouse},
        {QStringLiteral("migrate-store"),
         QStringLiteral("migrate-store --to-server ADDRESS [--password-file FILE] | --to-file"),
         QStringLiteral("move the workshop to an empty PostgreSQL database, like \"host=wall-1 "
                        "dbname=ramplight user=kiosk sslmode=verify-full\", or back into a file; "
                        "compared entry by entry; a password comes from a file of mode 0600, from "
                        "RAMPLIGHT_STORE_PASSWORD or ~/.pgpass"),
         migrateStore},
        {QStringLiteral("prepare-server"),
         QStringLiteral("prepare-server ADDRESS --kiosk ACCOUNT [--password-file FILE]"),
         QStringLiteral("as the owner of a PostgreSQL database: bring it to this program's schema "
                        "and let the kiosks' account add to the ledger, never change it; again "
                        "after each new version"),
         prepareServer},
        {QStringLiteral("key"),
         QStringLiteral("key show | copy PLACE | take FILE | renew [--as NAME]"),
         QStringLiteral(
             "the workshop's key file: say whether it is this workshop's; copy it onto a "
             "stick for the safe or the next kiosk; take such a copy over; make new keys "
             "when somebody may have seen it, after which everybody gets a new PIN"),
         key},
        {QStringLiteral("staff"),
         QStringLiteral("staff list | add NAME --skills A,B --rights A,B | "
                        "change NAME [--skills A,B] [--rights A,B] | pin NAME | "
                        "badge NAME CODE|none | leave NAME | back NAME [--as NAME]"),
         QStringLiteral("people, their skills and rights; PINs are asked for, never arguments"),
         staff},
        {QStringLiteral("bay"),
         QStringLiteral("bay list | add NUMBER NAME KIND | change NUMBER NAME KIND | "
                        "close NUMBER | open NUMBER [--as NAME]"),
         QStringLiteral("the bays"), bay},
        {QStringLiteral("tool"),
         QStringLiteral("tool list | add NUMBER KIND DATE | due NUMBER DATE | leave NUMBER | "
                        "back NUMBER [--as NAME]"),
         QStringLiteral("measuring tools and the day of their next calibration, like 2031-05-04"),
         tool},
        {QStringLiteral("house"), QStringLiteral("house export FILE | import FILE [--as NAME]"),
         QStringLiteral("rules, bays, tools and changes of the catalogue as one file; all of a "
                        "file is taken in or nothing"),
         houseFile},
        {QStringLiteral("catalogue"),
         QStringLiteral("catalogue check [FILE] | explain STOCKNO | export FILE | "
                        "import FILE [--as NAME] | import --shipped"),
         QStringLiteral("check a catalogue file, or the one in this program; say why a car has its "
                        "operations; take a catalogue in for this house; the shipped one again"),
         catalogue},
        {QStringLiteral("demo"), QStringLiteral("demo [--tell]"),
         QStringLiteral("make the demo workshop in an empty folder; --tell names each sign-off "
                        "once it is kept"),
         demo},
    };
    return all;
}

const Command* find(const QString& name)
{
    const auto it = std::ranges::find(commands(), name, &Command::name);
    return it == commands().end() ? nullptr : &*it;
}

QString help()
{
    QString text = QStringLiteral(
        "Ramplight: the wall of a used-car preparation workshop.\n\n"
        "ramplight [--windowed] [--size WxH]   open the kiosk\n"
        "ramplight tour --out FOLDER [--small] [--tell]\n"
        "                                      walk the main job offscreen and leave pictures; "
        "--small:\n"
        "                                      at one size, in fewer pixels; --tell names each "
        "signature once "
        "it\n"
        "                                      was taken\n");
    for (const Command& command : commands())
        text += QStringLiteral("ramplight %1\n    %2\n").arg(command.usage, command.purpose);
    text += QStringLiteral(
        "\n--home FOLDER before any of them: another workshop than the usual one.\n");
    return text;
}

QString takeOption(QStringList& arguments, const QString& option)
{
    const qsizetype at = arguments.indexOf(option);
    if (at < 0 || at + 1 >= arguments.size())
        return {};
    const QString value = arguments.at(at + 1);
    arguments.remove(at, 2);
    return value;
}

bool takeFlag(QStringList& arguments, const QString& flag)
{
    return arguments.removeAll(flag) > 0;
}

int usage(Terminal& terminal, const Command& command)
{
    terminal.err << "Usage: ramplight " << command.usage << Qt::endl;
    return BadUsage;
}

int failed(Terminal& terminal, const QString& words, ExitCode code)
{
    terminal.err << words << Qt::endl;
    return code;
}

void sayAgainstRules(const QStringList& told, Terminal& terminal)
{
    if (told.isEmpty())
        return;
    terminal.out << "It is as it was written. By the rules of this program some of it should not "
                    "have been; verify names it, too:"
                 << Qt::endl;
    for (const QString& line : told)
        terminal.out << "    " << line << Qt::endl;
}

tl::expected<QByteArray, QString> readFile(const QString& path, std::optional<qint64> most)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(
            QStringLiteral("%1 cannot be read: %2.").arg(path, file.errorString()));
    return most ? file.read(*most) : file.readAll();
}

int writeWhole(const QString& path, const QByteArray& bytes, Terminal& terminal, ExitCode otherwise)
{
    const auto cannot = [&](const QString& why) {
        return failed(terminal, QStringLiteral("%1 cannot be written: %2.").arg(path, why),
                      otherwise);
    };
    // A device or a pipe, which a file would take the place of.
    if (const QFileInfo there(path); there.exists() && !there.isFile())
        return cannot(QStringLiteral("it is no file"));
    const auto kept = writeFileForOthers(path, bytes, modeForOthers());
    return kept ? Ok : cannot(whyNotWritten(kept.error()));
}

std::unique_ptr<OpenHouse> openOrSay(Terminal& terminal, bool mayMake)
{
    auto house = OpenHouse::open(terminal.paths, terminal.clock, mayMake);
    if (house)
        return std::move(*house);
    terminal.err << house.error() << Qt::endl;
    return nullptr;
}

tl::expected<CarId, int> carCalled(const QString& stockNumber, OpenHouse& house, Terminal& terminal)
{
    const auto id = house.store().ledger().carByStockNumber(stockNumber);
    if (!id)
        return tl::unexpected(failed(terminal, id.error().words, Unavailable));
    if (*id)
        return **id;
    const auto cards = house.store().wall().find(stockNumber);
    if (!cards)
        return tl::unexpected(failed(terminal, cards.error().words, Unavailable));
    for (const CarCard& card : *cards)
        if (card.identity.stockNumber.compare(stockNumber, Qt::CaseInsensitive) == 0)
            return card.car;
    return tl::unexpected(
        failed(terminal, QStringLiteral("There is no car with stock number %1.").arg(stockNumber),
               BadData));
}

tl::expected<PersonId, QString> actor(const SiteState& site, const QString& asName, Right right)
{
    PersonId found;
    QStringList names;
    for (const auto& [id, person] : site.people) {
        const bool wanted =
            asName.isEmpty() || person.name.compare(asName, Qt::CaseInsensitive) == 0;
        if (wanted && person.can(right)) {
            found = id;
            names.append(person.name);
        }
    }
    if (names.size() == 1)
        return found;
    if (!names.isEmpty())
        return tl::unexpected(
            QStringLiteral("The ledger keeps whose word it is. Say it with --as NAME, one of: %1.")
                .arg(names.join(QStringLiteral(", "))));
    return tl::unexpected(
        asName.isEmpty()
            ? QStringLiteral("Nobody here has the right for this.")
            : QStringLiteral("%1 does not work here, or has no right to this.").arg(asName));
}

CommandId freshCommand()
{
    return CommandId{QUuid::createUuid().toString(QUuid::WithoutBraces)};
}

} // namespace ramplight::cli
