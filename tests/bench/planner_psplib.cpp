// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Measures the scheduler's core with the single-mode instances of the Project Scheduling Problem
// Library (Kolisch and Sprecher 1997). The instances are no part of the project: the folder that
// holds them is an argument.
#include "bench/processortime.h"
#include "planning/projectsearch.h"

#include <QByteArray>
#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStringList>

#include <atomic>
#include <cstdio>
#include <map>
#include <mutex>
#include <thread>

using namespace ramplight::planning;

namespace {

constexpr const char* usage =
    R"(planner_psplib DIR [options]: schedules the instances of DIR/j30, DIR/j60, DIR/j120 (.sm files)
and prints a JSON object a line: set, instance, schedules, seconds, starts.

    --set NAME       that set only; may be given again
    --schedules N    at most N schedules for an instance
    --seconds S      at most S seconds of a processor for an instance; 1 when nothing is said
    --seed K         of the search's chance, 1 when nothing is said
    --jobs N         instances at a time, 1 when nothing is said
    --every N        each Nth instance only
)";

struct Options
{
    QString dir;
    QStringList sets;
    Budget budget;
    double seconds = 0;
    std::uint64_t seed = 1;
    int jobs = 1;
    int every = 1;
};

/// The rows of whole numbers under a heading, up to the next line of asterisks.
std::vector<std::vector<int>> rowsUnder(const QList<QByteArray>& lines, const char* heading)
{
    std::vector<std::vector<int>> rows;
    bool inside = false;
    for (const QByteArray& line : lines) {
        if (!inside) {
            inside = line.startsWith(heading);
            continue;
        }
        if (line.startsWith('*'))
            break;
        std::vector<int> row;
        for (const QByteArray& word : line.simplified().split(' ')) {
            bool isNumber = false;
            const int number = word.toInt(&isNumber);
            if (!isNumber)
                break;
            row.push_back(number);
        }
        if (!row.empty())
            rows.push_back(std::move(row));
    }
    return rows;
}

std::optional<Project> readProject(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return {};
    const QList<QByteArray> lines = file.readAll().split('\n');
    const auto relations = rowsUnder(lines, "PRECEDENCE RELATIONS");
    const auto requests = rowsUnder(lines, "REQUESTS/DURATIONS");
    const auto available = rowsUnder(lines, "RESOURCEAVAILABILITIES");
    if (relations.empty() || relations.size() != requests.size() || available.empty())
        return {};
    Project project;
    for (std::size_t k = 0; k < maxResources; ++k)
        project.capacities[k] = available.back().at(k);
    for (std::size_t i = 0; i < relations.size(); ++i) {
        Activity activity{.duration = requests[i].at(2)};
        for (std::size_t k = 0; k < maxResources; ++k)
            activity.needs[k] = requests[i].at(3 + k);
        for (std::size_t k = 3; k < relations[i].size(); ++k)
            activity.successors.push_back(relations[i][k] - 1);
        project.activities.push_back(std::move(activity));
    }
    return project;
}

std::optional<Options> read(const QStringList& arguments)
{
    Options options;
    for (qsizetype i = 0; i < arguments.size(); ++i) {
        const QString& word = arguments[i];
        if (!word.startsWith(QLatin1String("--"))) {
            options.dir = word;
            continue;
        }
        if (i + 1 == arguments.size())
            return {};
        const QString& value = arguments[++i];
        if (word == QLatin1String("--set"))
            options.sets.append(value);
        else if (word == QLatin1String("--schedules"))
            options.budget.schedules = value.toLongLong();
        else if (word == QLatin1String("--seconds"))
            options.seconds = value.toDouble();
        else if (word == QLatin1String("--seed"))
            options.seed = value.toULongLong();
        else if (word == QLatin1String("--jobs"))
            options.jobs = value.toInt();
        else if (word == QLatin1String("--every"))
            options.every = value.toInt();
        else
            return {};
    }
    if (options.dir.isEmpty() || options.jobs < 1 || options.every < 1)
        return {};
    if (options.sets.isEmpty())
        options.sets = {QStringLiteral("j30"), QStringLiteral("j60"), QStringLiteral("j120")};
    if (options.seconds <= 0 && options.budget.schedules == Budget{}.schedules)
        options.seconds = 1;
    return options;
}

QByteArray solve(const QString& set, const QString& name, const Project& project,
                 const Options& options)
{
    const double begin = ramplight::test::processorSeconds();
    Budget budget = options.budget;
    if (options.seconds > 0) {
        const double end = begin + options.seconds;
        budget.stop = [end] { return ramplight::test::processorSeconds() >= end; };
    }
    const ProjectSchedule found = shortSchedule(project, budget, options.seed);
    const double took = ramplight::test::processorSeconds() - begin;
    QJsonArray starts;
    for (const int start : found.starts)
        starts.append(start);
    return QJsonDocument(QJsonObject{{QStringLiteral("set"), set},
                                     {QStringLiteral("instance"), name},
                                     {QStringLiteral("schedules"), qint64{found.schedules}},
                                     {QStringLiteral("seconds"), took},
                                     {QStringLiteral("starts"), starts}})
               .toJson(QJsonDocument::Compact) +
           '\n';
}

} // namespace

int main(int argc, char** argv)
{
    QStringList arguments;
    for (int i = 1; i < argc; ++i)
        arguments.append(QString::fromLocal8Bit(argv[i]));
    const std::optional<Options> options = read(arguments);
    if (!options) {
        std::fputs(usage, stderr);
        return 64;
    }
    struct Task
    {
        QString set;
        QString name;
    };
    std::vector<Task> tasks;
    for (const QString& set : options->sets) {
        int count = 0;
        const QDir dir(options->dir + u'/' + set);
        for (const QString& file : dir.entryList({QStringLiteral("*.sm")}, QDir::Files)) {
            if (count++ % options->every == 0)
                tasks.push_back({set, file.chopped(3)});
        }
    }
    if (tasks.empty()) {
        std::fprintf(stderr, "planner_psplib: no instances in %s\n", qPrintable(options->dir));
        return 66;
    }
    std::atomic<std::size_t> next = 0;
    std::atomic<bool> unread = false;
    std::mutex out;
    const auto work = [&] {
        for (std::size_t i = next++; i < tasks.size(); i = next++) {
            const auto& [set, name] = tasks[i];
            const auto project =
                readProject(options->dir + u'/' + set + u'/' + name + QStringLiteral(".sm"));
            if (!project) {
                std::fprintf(stderr, "planner_psplib: cannot read %s\n", qPrintable(name));
                unread = true;
                continue;
            }
            const QByteArray line = solve(set, name, *project, *options);
            const std::scoped_lock lock(out);
            std::fputs(line.constData(), stdout);
            std::fflush(stdout);
        }
    };
    std::vector<std::thread> threads;
    for (int i = 1; i < options->jobs; ++i)
        threads.emplace_back(work);
    work();
    for (std::thread& thread : threads)
        thread.join();
    return unread ? 65 : 0;
}
