// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What a manager sets for the house. Every change is signed with a PIN and stands in the ledger.
ScreenFrame {
    id: root

    enum Section {
        Rules,
        Tools,
        Catalogue,
        Screen,
        Files,
        Backup,
        Sites,
        Changes
    }

    readonly property SettingsView view: shell.settings
    readonly property list<string> sections: [qsTr("House rules"), qsTr("Tools"), qsTr("Catalogue"), qsTr("Screen"), qsTr("Files"), qsTr("Backup"), qsTr("Sites"), qsTr("Changes")]
    property int section: SettingsScreen.Rules
    // What the section without a sheet of its own asked.
    readonly property Ask asked: section === SettingsScreen.Screen ? shell.screen.ask
        : section === SettingsScreen.Files ? view.files.ask
        : section === SettingsScreen.Backup ? shell.backups.ask : view.rules.ask

    title: qsTr("Settings")
    rest: root.sections[root.section]

    Component.onCompleted: {
        root.view.refresh()
        root.shell.backups.refresh()
    }

    Connections {
        target: root.view.tools.ask

        function onDone(what: string): void {
            toolSheet.shown = false
        }
    }

    Connections {
        target: root.view.catalogue.ask

        function onDone(what: string): void {
            kindSheet.shown = false
        }
    }

    Flow {
        id: tabs

        anchors { left: parent.left; top: parent.top }
        width: root.tall ? parent.width : Theme.mm(62)
        spacing: Theme.gap

        Repeater {
            model: root.sections

            delegate: FilterTab {
                required property string modelData
                required property int index

                width: root.tall ? implicitWidth : tabs.width
                text: modelData
                visible: index === SettingsScreen.Backup ? root.shell.backups.offered : index !== SettingsScreen.Sites || root.view.sites.offered
                count: index === SettingsScreen.Tools && root.view.tools.overdue > 0 ? root.view.tools.overdue
                    : index === SettingsScreen.Backup && root.shell.backups.worrying ? 1 : -1
                selected: root.section === index
                onTapped: root.section = index
            }
        }
    }

    Sheet {
        id: paper

        anchors {
            left: root.tall ? parent.left : tabs.right
            leftMargin: root.tall ? 0 : Theme.module
            right: parent.right
            top: root.tall ? tabs.bottom : parent.top
            topMargin: root.tall ? Theme.module : 0
            bottom: parent.bottom
        }

        RulesSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Rules
            rules: root.view.rules
            onLimitWanted: (rowId, title, unit, decimals, source, text) => limitSheet.ask(rowId, title, unit, decimals, source, text)
        }

        ToolsSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Tools
            tools: root.view.tools
            onWanted: toolId => {
                root.view.tools.edit(toolId)
                toolSheet.shown = true
            }
        }

        CatalogueSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Catalogue
            catalogue: root.view.catalogue
            onWanted: kindId => {
                root.view.catalogue.edit(kindId)
                kindSheet.shown = true
            }
        }

        ScreenSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Screen
            screen: root.shell.screen
            phones: root.shell.phoneAddress
            printer: root.shell.printer
            onAddressWanted: phoneSheet.open()
            onPrinterWanted: printerSheet.open()
            onDiagonalWanted: diagonalSheet.ask("diagonal", qsTr("Diagonal of the screen"), qsTr("inches"), 1, "", root.shell.screen.diagonalText)
        }

        FilesSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Files
            files: root.view.files
        }

        BackupSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Backup
            backups: root.shell.backups
            onFolderWanted: backupSheet.open()
        }

        SitesSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Sites
            sites: root.view.sites
        }

        ChangesSettings {
            anchors.fill: parent
            visible: root.section === SettingsScreen.Changes
            changes: root.view.changes
        }
    }

    Banner {
        anchors { left: paper.left; right: paper.right; bottom: paper.bottom; margins: Theme.module }
        visible: root.asked.refused && !root.asked.busy && !backupSheet.shown
        kind: root.asked.canRetry ? Banner.Fault : Banner.Refusal
        what: root.asked.words
        action: root.asked.canRetry ? qsTr("Try again") : ""
        onActed: root.asked.retry()
        onClosed: root.asked.dismiss()
    }

    actions: [
        ActionButton {
            visible: root.section === SettingsScreen.Rules && root.view.rules.changed
            text: qsTr("As it was")
            onTapped: root.view.rules.begin()
        },
        ActionButton {
            visible: root.section === SettingsScreen.Rules
            kind: ActionButton.Accent
            text: qsTr("Save the rules")
            available: root.view.rules.changed && !root.view.rules.ask.busy
            reason: qsTr("nothing changed")
            onTapped: root.view.rules.save()
        },
        ActionButton {
            visible: root.section === SettingsScreen.Sites && root.view.sites.allowed
            text: qsTr("Look again")
            available: !root.view.sites.reading
            onTapped: root.view.sites.refresh()
        },
        ActionButton {
            visible: root.section === SettingsScreen.Files
            text: qsTr("Look again")
            onTapped: root.view.files.refresh()
        },
        ActionButton {
            visible: root.section === SettingsScreen.Files
            kind: ActionButton.Accent
            text: qsTr("Write this house into the folder")
            available: !root.view.files.ask.busy
            onTapped: root.view.files.exportAll()
        },
        ActionButton {
            visible: root.section === SettingsScreen.Backup
            kind: ActionButton.Accent
            text: qsTr("Back up now")
            available: !root.shell.backups.working && root.shell.backups.folder.length > 0
            reason: root.shell.backups.working ? qsTr("being made") : qsTr("a folder first")
            onTapped: root.shell.backups.backUpNow()
        },
        ActionButton {
            visible: root.section === SettingsScreen.Tools
            kind: ActionButton.Accent
            text: qsTr("Add a tool")
            onTapped: {
                root.view.tools.edit(0)
                toolSheet.shown = true
            }
        }
    ]

    sheets: [
        ToolSheet {
            id: toolSheet

            view: root.view.tools
            onDayWanted: daySheet.ask("due", qsTr("Next calibration"), root.shell.today)
        },
        KindSheet {
            id: kindSheet

            view: root.view.catalogue
            onNumberWanted: (key, title, unit, decimals, hint, text) => {
                numberSheet.emptyText = key === "material" ? qsTr("Not entered") : key === "low" || key === "usual" || key === "high" ? "" : qsTr("As the catalogue has it")
                numberSheet.ask(key, title, unit, decimals, hint, text)
            }
        },
        NumberSheet {
            id: limitSheet

            emptyText: qsTr("As shipped")
            onEntered: (key, text) => root.view.rules.setLimit(key, text)
        },
        NumberSheet {
            id: numberSheet

            onEntered: (key, text) => {
                if (key === "material")
                    root.view.catalogue.setMaterial(text)
                else if (key === "low" || key === "usual" || key === "high")
                    root.view.catalogue.setMinutes(key, text)
                else
                    root.view.catalogue.setLimit(key, text)
            }
        },
        NumberSheet {
            id: diagonalSheet

            onEntered: (key, text) => root.shell.screen.setDiagonal(text)
        },
        PhoneAddressSheet {
            id: phoneSheet

            setting: root.shell.phoneAddress
        },
        BackupFolderSheet {
            id: backupSheet

            backups: root.shell.backups
        },
        PrinterSheet {
            id: printerSheet

            printer: root.shell.printer
        },
        DateSheet {
            id: daySheet

            onEntered: (key, iso) => root.view.tools.due = iso
        }
    ]
}
