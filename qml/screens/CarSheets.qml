// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The sheets over the car's screen: moving it, adding work, findings, photos, corrections, leaving.
// Fills its parent; each sheet closes when what it asked for is done.
//   shell, navigator
//   askMove(), askWork(), showMore(), showFinding(), showPhoto(), showPair(), showTwice()
Item {
    id: root

    // What a photo that was asked for is for.
    enum PhotoUse {
        Nothing,
        CarOrFinding,
        FactsEvidence,
        CorrectionEvidence
    }

    required property Shell shell
    required property Navigator navigator
    readonly property CarView car: shell.car
    property int photoUse: CarSheets.Nothing
    property int photoFinding: 0
    readonly property bool forEvidence: photoUse === CarSheets.FactsEvidence || photoUse === CarSheets.CorrectionEvidence

    function askMove(): void {
        move.shown = true
    }

    function askWork(place: string, kind: string): void {
        addWork.openAt(place, kind)
    }

    function showMore(): void {
        more.shown = true
    }

    function showFinding(finding: FindingLine): void {
        detail.findingId = finding.findingId
        detail.words = finding.words
        detail.quote = finding.quote
        detail.byWords = finding.byWords
        detail.answerWords = finding.answerWords
        detail.stands = finding.stands
        detail.photoId = ""
        detail.correcting = 0
        detail.shown = true
    }

    function showTwice(): void {
        twice.shown = true
    }

    function showPair(): void {
        comparing.open()
    }

    function showPhoto(photoKey: string, url: string, caption: string): void {
        view.photoKey = photoKey
        view.comparable = root.shell.beforeAfter.compares(photoKey)
        view.source = url
        view.caption = caption
        view.visible = true
        view.forceActiveFocus()
    }

    function askPhoto(use: int, prompt: string): void {
        root.photoUse = use
        photo.prompt = prompt
        photo.open()
    }

    anchors.fill: parent

    Connections {
        target: root.car.ask

        function onDone(what: string): void {
            switch (what) {
            case "moveToBay":
            case "moveToParking":
                move.shown = false
                break
            case "changePromise":
                promise.shown = false
                break
            case "readOdometer":
                odometer.shown = false
                break
            case "correctIdentity":
            case "correctFacts":
                identity.shown = false
                break
            case "openOperation":
                addWork.shown = false
                break
            case "leaveUnreleased":
                leave.shown = false
                break
            case "linkDuplicate":
                twice.shown = false
                break
            case "correctFinding":
                detail.shown = false
                break
            }
        }
    }

    Connections {
        target: root.car

        // What is open goes on with what was found, or is closed where that is not there any more.
        function onRenumbered(findings: var, operations: var): void {
            if (findings[detail.findingId] !== undefined) {
                detail.findingId = findings[detail.findingId]
                if (detail.findingId === 0)
                    detail.shown = false
            }
            if (findings[root.photoFinding] !== undefined) {
                root.photoFinding = findings[root.photoFinding]
                if (root.photoFinding === 0 && root.photoUse === CarSheets.CarOrFinding)
                    photo.shown = false
            }
        }

        function onPhotoKept(photoId: string, warnings: list<string>): void {
            if (root.photoUse === CarSheets.FactsEvidence)
                identity.photoId = photoId
            else if (root.photoUse === CarSheets.CorrectionEvidence)
                detail.photoId = photoId
            root.photoUse = CarSheets.Nothing
        }
    }

    CarMoreSheet {
        id: more

        car: root.car
        onDismissed: shown = false
        onPromiseWanted: {
            more.shown = false
            promise.shown = true
        }
        onOdometerWanted: {
            more.shown = false
            odometer.shown = true
        }
        onIdentityWanted: {
            more.shown = false
            root.car.editIdentity()
            identity.facts = false
            identity.shown = true
        }
        onFactsWanted: {
            more.shown = false
            root.car.editIdentity()
            identity.photoId = ""
            identity.facts = true
            identity.shown = true
        }
        onPhotoWanted: {
            more.shown = false
            root.photoFinding = 0
            root.askPhoto(CarSheets.CarOrFinding, qsTr("A photo of %1").arg(root.car.stockNumber))
        }
        onLeaveWanted: {
            more.shown = false
            leave.shown = true
        }
        onTwiceWanted: {
            more.shown = false
            twice.shown = true
        }
        onSpokenWanted: {
            more.shown = false
            root.navigator.openTranscripts(root.car.carId)
        }
        onDoorSheetWanted: {
            more.shown = false
            page.openDoorSheet(root.car.carId)
        }
        onTagWanted: {
            more.shown = false
            page.openTag(root.car.carId)
        }
        onBringBackWanted: {
            more.shown = false
            bringBack.shown = true
        }
    }

    PaperSheet {
        id: page

        paper: root.shell.paper
    }

    MoveSheet {
        id: move

        car: root.car
        bays: root.shell.bays
        onDismissed: shown = false
    }

    PromiseSheet {
        id: promise

        car: root.car
        today: root.shell.today
        onDismissed: shown = false
    }

    OdometerSheet {
        id: odometer

        car: root.car
        onDismissed: shown = false
    }

    IdentitySheet {
        id: identity

        car: root.car
        onDismissed: shown = false
        onPhotoWanted: {
            root.askPhoto(CarSheets.FactsEvidence, qsTr("A photo that shows what %1 has").arg(root.car.stockNumber))
        }
    }

    AddWorkSheet {
        id: addWork

        car: root.car
        onDismissed: shown = false
    }

    LeaveSheet {
        id: leave

        car: root.car
        onDismissed: shown = false
    }

    TwiceSheet {
        id: twice

        car: root.car
        onDismissed: shown = false
    }

    FindingDetailSheet {
        id: detail

        car: root.car
        onDismissed: shown = false
        onPhotoWanted: {
            detail.shown = false
            root.photoFinding = detail.findingId
            root.askPhoto(CarSheets.CarOrFinding, detail.words)
        }
        onEvidenceWanted: {
            root.askPhoto(CarSheets.CorrectionEvidence, qsTr("A photo that shows it"))
        }
        onChangeWanted: {
            root.car.editFinding(detail.findingId)
            changed.shown = true
        }
    }

    FindingSheet {
        id: changed

        shell: root.shell
        draft: root.car.finding
        shape: root.car.shape
        title: qsTr("What it really is")
        confirm: qsTr("That is it")
        onConfirmed: detail.correcting = 2
    }

    WordsSheet {
        id: bringBack

        ask: root.car.ask
        asks: "bringBack"
        title: qsTr("%1 comes back into prep").arg(root.car.stockNumber)
        confirm: qsTr("Bring it back")
        onSaid: words => root.car.bringBack(words)
    }

    PhotoSheet {
        id: photo

        shell: root.shell
        // Evidence of a correction goes with the correction, not by itself.
        phoneOffered: !root.forEvidence
        onPhoneWanted: root.shell.phone.inviteForFinding(root.photoFinding, photo.prompt)
        several: !root.forEvidence
        whereWords: root.car.stockNumber
        onFilesChosen: paths => {
            if (root.forEvidence)
                root.car.keepFile(paths[0])
            else
                root.car.attachFiles(paths, root.photoFinding)
        }
        onFrameTaken: image => {
            if (root.forEvidence)
                root.car.keepFrame(image)
            else
                root.car.attachFrame(image, root.photoFinding)
        }
    }

    PhotoView {
        id: view

        property string photoKey: ""

        visible: false
        onDismissed: visible = false
        onCompareWanted: {
            visible = false
            comparing.openPhoto(photoKey)
        }
    }

    BeforeAfterPage {
        id: comparing

        pair: root.shell.beforeAfter
    }

    AskBanner {
        anchors { bottom: parent ? parent.bottom : undefined; bottomMargin: Theme.touchSafety + 2 * Theme.module }
        ask: root.car.ask
    }
}
