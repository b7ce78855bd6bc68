(()=>{(()=>{try{let e=localStorage.getItem("woodreeve-theme");(e==="light"||e==="dark")&&(document.documentElement.dataset.theme=e)}catch{}})();})();
